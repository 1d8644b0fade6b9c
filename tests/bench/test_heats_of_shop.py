"""A shop that takes more heats than a plan says burns more metal: its plans count that."""

from __future__ import annotations

from math import exp

import pytest

from coach.bench.known_shop import made_with
from coach.bench.outlook import outlook
from coach.bench.planned import Planned, planned_tool
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.shop_figures import HEATS, of_plan, taught_by
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.shop_known import ShopKnown
from coach.operations.does import Cause
from coach.recipe.reader import read_recipe
from tests.bench.jobs import begun, shop

STRAP = """\
recipe: Trial strap
pieces:
  strap:
    metal: 1084
    bar: 30 x 8, long 400
    zones:
      blade: 37 ±3 x 4.5 ±0.5, long 150 ±15
      tail: 28 ±3 x 6 ±0.5, long 80 ±12
usual: {at: light yellow}
steps:
  - mark out: strap
  - cut: tail, cold, kerf 1
    check: length
  - draw: blade, 37 ±3 x 4.5 ±0.5, 3 heats
    title: Draw the blade
    check: thickness, width, length
  - draw: tail, 28 ±3 x 6 ±0.5, 2 heats
    title: Draw the tail
    check: thickness, width, length
  - normalise: blade, 3 heats, at 860 °C, also hot tail
    check: none
  - inspect: tail
    check: thickness, width, length
"""
#: The same as it is planned once next-time's advice was taken.
AS_TAKEN = STRAP.replace("±0.5, 3 heats", "±0.5, 5 heats").replace("±0.5, 2 heats", "±0.5, 3 heats")


def planned(text: str = STRAP) -> Plan:
    return look_back(read_recipe(text, "strap.yaml"))


def heats(times: float, doubt: float = 0.01) -> ShopKnown:
    return ShopKnown(what=HEATS, unit="1", value=times, doubt=doubt, jobs=3, names="a, b, c")


def job(at: Shop, text: str = STRAP) -> Session:
    """Five heats for the three of the blade, three for the two of the tail; normalised as planned."""
    session = begun(text, at)
    session.done()
    session.done()
    for zone, count, sizes in (("blade", 5, (4.5, 37, 148)), ("tail", 3, (6, 28, 79))):
        for _ in range(count):
            session.heat()
        for name, size in zip(("thickness", "width", "length"), sizes, strict=True):
            session.read(f"{zone}.{name}", str(size), insist=True)
        session.done()
    for _ in range(3):
        session.heat()
    session.done()
    session.done()
    return session


def spare_mm(of: ShopKnown | None) -> float:
    found = outlook(planned(), (of,) if of else ()).found
    return found.zones["blade"].spares[0].spare.value


def scale_mm3(plan: Planned, step: int) -> float:
    row = next(one for one in plan.steps if one.step.number == step)
    return sum(one.volume.value for one in row.taken if one.cause is Cause.SCALE and one.zone == "blade")


def test_the_scale_of_heats_that_this_shop_takes_beyond_the_plan_is_metal_that_is_not_there() -> None:
    """Five heats for three take two more; what they scale off is missing in the length of 37 x 4.5 mm.

    Three heats scale S mm³ off the blade, so two more take 2/3 · S, which is 2/3 · S / 166.5 mm long.
    """
    three_mm3 = scale_mm3(planned_tool(planned()), 3)
    less_mm = 2.0 / 3.0 * three_mm3 / (37.0 * 4.5)
    assert less_mm > 1.0
    assert spare_mm(None) - spare_mm(heats(5.0 / 3.0)) == pytest.approx(less_mm, rel=0.1)


def test_what_the_plan_says_that_a_step_scales_is_what_it_reckons_with() -> None:
    book, here = planned_tool(planned()), planned_tool(planned(), (heats(5.0 / 3.0),))
    assert scale_mm3(here, 3) == pytest.approx(5.0 / 3.0 * scale_mm3(book, 3))
    assert scale_mm3(here, 5) == pytest.approx(scale_mm3(book, 5)), "three heats to normalise are three"


def test_how_many_heats_a_shop_takes_is_in_doubt_and_so_is_its_spare() -> None:
    sure, unsure = (
        outlook(planned(), (heats(5.0 / 3.0, doubt),)).found.zones["blade"].spares[0].spare.doubt
        for doubt in (0.01, 0.5)
    )
    assert sure is not None
    assert unsure is not None
    assert unsure > sure


def test_a_treatment_takes_the_heats_that_it_asks_for_whatever_the_hammer() -> None:
    """5 planned at the hammer at 8/5 of that are 8, and 3 to normalise stay 3: 11 in all."""
    assert planned_tool(planned(), (heats(8.0 / 5.0),)).heats_here == 11
    session = job(shop())
    said = taught_by(session.job, session._state).says[HEATS]
    assert exp(said.value) == pytest.approx(8.0 / 5.0), (
        "5 and 3 for 3 and 2; the normalising is no part of it"
    )


def test_a_recipe_that_plans_what_its_jobs_took_is_not_counted_up_once_more() -> None:
    session = job(shop())
    taught = taught_by(session.job, session._state)
    made = made_with(ForgedWith(fire="", hammer=""), planned(AS_TAKEN).recipe)
    again = of_plan(taught, made.recipe, dict(made.planned))
    assert again is not None
    assert exp(again.value) == pytest.approx(1.0)
    other = of_plan(taught, "another-tool", {})
    assert other is not None
    assert exp(other.value) == pytest.approx(8.0 / 5.0)


def test_at_the_bench_the_heats_still_to_come_are_those_of_the_shop_until_the_sizes_are_there() -> None:
    """After two of three heats one is planned and, at 5/3, three are to come; once all is read, one."""
    book, here = (begun(STRAP, shop()) for _ in range(2))
    here.begin_with(heats(5.0 / 3.0))
    for session in (book, here):
        session.done()
        session.done()
        session.heat()
        session.heat()
    spares = [one.standing().spares[0].spare.value for one in (book, here)]
    assert spares[0] - spares[1] > 1.0
    for session in (book, here):
        for name, size in (("thickness", "4.5"), ("width", "37"), ("length", "150")):
            session.read(f"blade.{name}", size, insist=True)
    spares = [one.standing().spares[0].spare.value for one in (book, here)]
    assert spares[0] - spares[1] == pytest.approx(0.0, abs=0.3)
