"""Which size the bench asks for next, and what it says of a number that went one row astray."""

from __future__ import annotations

import pytest

from coach.bench.in_turn import in_turn, next_to_read
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.tells_most import DoubtOfJob
from coach.ledger.verdict import Verdict
from coach.places import bundled_recipes
from coach.screens.bench_work import Told, do_lines
from coach.telling.doubt import NOTHING_TELLS, measure_parts
from coach.telling.glance import glance
from coach.telling.page import Line
from coach.telling.standing import bearing
from coach.telling.writing import Shown
from tests.screens.stage import answer_on, at_the_bench, words_on

#: An invented strap: three sizes are asked of one step, and another step cuts by rule.
STRAP = """\
recipe: Strap
units: mm
pieces:
  strap:
    metal: mild steel
    bar: 30 x 8
    zones:
      blade: 20 ±1 x 6 ±0.5, long 100 ±15
      tail: 30 ±1 x 8 ±0.5, long 40 ±6
steps:
  - draw: blade, 20 ±1 x 6 ±0.5, 3 heats, at light yellow
    check: width, thickness, length
  - cut: tail
    check: length
"""


def next_to_read_as_they_come(session: Session) -> str:
    return next(one.name for one in in_turn(session.standing()) if one.is_open)


def read_of(session: Session) -> dict[str, float]:
    checks = session.standing().checks
    return {one.name: one.reading.size.value for one in checks if one.reading is not None}


@pytest.fixture
def strap(shop: Shop) -> Session:
    return shop.begin(STRAP, "strap.yaml")


async def test_after_a_reading_the_next_row_is_asked_for_and_round_again(shop: Shop, strap: Session) -> None:
    strap.heat()
    async with at_the_bench(shop, strap) as (bench, pilot):
        await pilot.press("down")
        assert "▸ thickness" in words_on(bench.coach)
        await pilot.press(*"6.1", "enter")
        assert "▸ length" in words_on(bench.coach)
        await pilot.press(*"100", "enter")
        assert "▸ width" in words_on(bench.coach)


async def test_out_of_the_fire_asks_for_the_size_that_was_being_worked(shop: Shop, strap: Session) -> None:
    strap.heat()
    async with at_the_bench(shop, strap) as (bench, pilot):
        await pilot.press(*"24", "enter")
        assert "▸ thickness" in words_on(bench.coach)
        await pilot.press("f2")
        assert "▸ width" in words_on(bench.coach)


@pytest.mark.parametrize("keys", [("f2",), ("f3", "f2")])
@pytest.mark.parametrize(
    "read",
    [
        ("20", "6", "100"),  # all good
        ("20", "7", "90"),
        ("20", "6", "116"),  # the last is out
        ("20", "6", "16"),  # the last cannot be right
        ("24", "6"),
    ],
)
async def test_out_of_the_fire_asks_for_the_first_row_that_was_worked_whatever_was_asked_for_before(
    shop: Shop, strap: Session, read: tuple[str, ...], keys: tuple[str, ...]
) -> None:
    """The next heat begins at the top of the table, so that three sizes typed in one go are of their rows."""
    strap.heat()
    async with at_the_bench(shop, strap) as (bench, pilot):
        for size in read:
            await pilot.press(*size, "enter")
        for key in keys:
            await pilot.press(key)
            if "Enter" in answer_on(bench.coach) and answer_on(bench.coach).startswith("?"):
                await pilot.press("enter")
        assert (first := next_to_read_as_they_come(strap)) == "blade.width"
        assert f"▸ {first.split('.')[1]}" in words_on(bench.coach)
        await pilot.press(*"20.5", "enter", *"5.9", "enter", *"97", "enter")
    assert read_of(strap) == {"blade.width": 20.5, "blade.thickness": 5.9, "blade.length": 97.0}


async def test_in_the_fire_the_first_row_that_is_unread_is_asked_for(shop: Shop, strap: Session) -> None:
    strap.heat()
    async with at_the_bench(shop, strap) as (bench, pilot):
        await pilot.press(*"20", "enter", *"16", "enter")  # no thickness can be that
        assert "▸ thickness" in words_on(bench.coach)
        await pilot.press("down", *"116", "enter", "f3")
        assert (first := next_to_read_as_they_come(strap)) == "blade.thickness"
        assert f"▸ {first.split('.')[1]}" in words_on(bench.coach)


async def test_out_of_the_fire_leaves_the_row_of_what_is_being_typed(shop: Shop, strap: Session) -> None:
    strap.heat()
    async with at_the_bench(shop, strap) as (bench, pilot):
        await pilot.press(*"24", "enter", *"6.1", "f2")
        assert "▸ thickness" in words_on(bench.coach)


async def test_a_number_of_another_row_is_told_which_row_it_fits(shop: Shop, strap: Session) -> None:
    strap.heat()
    async with at_the_bench(shop, strap) as (bench, pilot):
        await pilot.press("down", *"20.2", "enter")
        assert answer_on(bench.coach).startswith("! blade thickness 20.2 mm: that cannot be right")
        assert "As blade width it would be good. 1=20.2 enters it there." in answer_on(bench.coach)
        await pilot.press(*"1=20.2", "enter")
    width = next(one for one in strap.standing().checks if one.dimension == "width")
    assert width.reading is not None
    assert width.reading.size.value == 20.2


def test_a_number_that_fits_no_other_row_is_given_none(strap: Session) -> None:
    strap.heat()
    strap.read("blade.thickness", "17")
    thickness = next(one for one in strap.standing().checks if one.dimension == "thickness")
    assert thickness.is_questioned
    assert not thickness.fits


def test_a_size_that_another_step_asks_by_calliper_is_read_by_no_rule(shop: Shop) -> None:
    session = shop.begin(STRAP, "strap.yaml", "by-rule")
    session.done()
    session.read("blade.thickness", "6")
    thickness = next(one for one in session.standing().checks if one.dimension == "thickness")
    assert thickness.reading is not None
    step = session.standing().step
    assert step is not None
    assert step.gauge == "rule"
    assert thickness.gauge == thickness.reading.gauge == "calliper"


async def test_what_decides_keeps_its_row_and_takes_no_number_without_its_name(shop: Shop) -> None:
    hook = shop.begin((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"), "first-hook.yaml")
    hook.done()
    for _ in range(3):
        hook.heat()
    for name, size in (("end_thickness", "3"), ("thickness", "8"), ("length", "125")):
        for _ in range(2):
            hook.read(f"tip.{name}", size)
    own = {"tip.end_thickness", "tip.thickness", "tip.length"}
    (decides,) = (one for one in hook.standing().checks if one.name not in own)
    number = [one.name for one in hook.standing().checks].index(decides.name) + 1
    async with at_the_bench(shop, hook) as (bench, pilot):
        assert f"{decides.label} cold" not in words_on(bench.coach)
        await pilot.press("f2")
        await pilot.pause()
        await pilot.press(str(number), "equals_sign", *"3", "enter")
        await pilot.pause()
        assert "No size of this step" not in answer_on(bench.coach)
    read = {one.name: one.reading.typed for one in hook.standing().checks if one.reading is not None}
    assert read[decides.name] == "3"


#: An invented punch, hardened: its heat is read in the fire, its file test on quenched steel.
PUNCH = """\
recipe: Punch
units: mm
pieces:
  punch:
    metal: C80
    bar: round 16
    zones:
      point: round 16 ±1, long 40 ±6
      shank: round 16 ±1, long 80 ±6
steps:
  - harden: point, at 780 to 810 °C, soak 5 to 10 min, 1 heat, quench water
    check: file test, temperature, soak, magnet
  - temper: point, at 240 °C, soak at least 1 h
"""


async def test_the_box_asks_what_the_large_text_names_before_and_after_a_quench(shop: Shop) -> None:
    """A `1` meant for the file was taken as 1 °C, and as a reading that stands when it came twice."""
    punch = shop.begin(PUNCH, "punch.yaml")
    async with at_the_bench(shop, punch) as (bench, pilot):
        assert "▸ temperature" in words_on(bench.coach), "first what is read in the fire"
        await pilot.press("f3", *"3=6", "enter")
        assert "then measure" in words_on(bench.coach)
        assert "point temperature type the" in words_on(bench.coach)
        await pilot.press("f2", "enter")  # after so short a while it asks whether it lay hot
        assert "then file test" in words_on(bench.coach)
        assert "▸ file test" in words_on(bench.coach)
        await pilot.press(*"2=795", "enter")
        assert "▸ file test" in words_on(bench.coach), "typed late, it alters nothing"
        await pilot.press("1", "enter")
    told = {one.dimension: one.verdict for one in punch.standing().checks if one.reading is not None}
    assert told == dict.fromkeys(("file_test", "temperature", "soak"), Verdict.GOOD)


#: The same hardened twice.
_HARDENED = PUNCH.split("steps:\n")[1].partition("  - temper")[0]
TWICE = PUNCH.replace(_HARDENED, _HARDENED * 2)


async def test_a_new_step_begins_at_its_first_row_whatever_was_read_again_in_the_one_before(
    shop: Shop,
) -> None:
    """A file test that failed in one step was asked for first in the next, before its magnet or its heat."""
    punch = shop.begin(TWICE, "punch.yaml")
    async with at_the_bench(shop, punch) as (bench, pilot):
        await pilot.press(*"1=3", "enter")  # the file bites
        assert "▸ file test" in words_on(bench.coach)
        await pilot.press("f4", "f4")
        await pilot.pause()
        standing = punch.standing()
        assert standing.step is not None
        assert standing.step.number == 2
        first = in_turn(standing)[0]
        assert first.dimension == "temperature"
        assert "▸ temperature" in words_on(bench.coach)


def test_what_is_named_as_next_is_what_the_box_asks(shop: Shop) -> None:
    punch = shop.begin(PUNCH, "punch.yaml")
    assert _next(punch) == "temperature"
    punch.read("point.soak", "6 min")
    punch.heat()
    assert _next(punch) == "file_test"
    punch.read("point.temperature", "700")
    assert _next(punch) == "magnet", "too cold to be quenched: it goes back, and the fire's come first"
    punch.read("point.temperature", "790")
    punch.read("point.file_test", "pass")
    assert _next(punch) == "magnet"


def _next(session: Session) -> str:
    found = next_to_read(session.standing())
    return found.dimension if found is not None else ""


def test_a_size_of_the_step_that_is_no_row_is_told_as_not_asked_for(shop: Shop) -> None:
    """It stood there like those of the table, the box never came to it, and the step ended without."""
    strap = shop.begin(STRAP.replace("check: width, thickness, length", "check: thickness"), "strap.yaml")
    told = {line.label: line.words for line in _told_of_step(strap)}
    assert told["To size"] == "blade width 20 ±1 mm, not asked for"
    asked = {line.label: line.words for line in _told_of_step(shop.begin(STRAP, "strap.yaml", "all"))}
    assert "To size" not in asked, "each of them is a row of the table"


def _told_of_step(session: Session) -> list[Told]:
    standing = session.standing()
    assert standing.step is not None
    return do_lines(standing, standing.step, Shown(session.system), 80)


def test_shop_bench_command_and_measure_page_name_the_same_size_next(shop: Shop, strap: Session) -> None:
    """Just begun and not put down, the shop named what the work starts from, and the measure page nothing."""
    shown, standing = Shown(strap.system), strap.standing()
    assert _next(strap) == "width"
    assert glance(standing, strap.first_to_measure(), shown).first == "read blade width, wanted 20 ±1 mm"
    assert "To measure next: blade width" in str(bearing(standing, shown).body)
    nothing = DoubtOfJob(None, (), asked_next="blade width")
    told = [line.words for line in measure_parts(nothing, shown) if isinstance(line, Line)]
    assert told == [f"Next the step asks for blade width. {NOTHING_TELLS}"]
    assert strap.doubt().asked_next == "blade width"
    strap.rest()
    cold = glance(strap.standing(), strap.first_to_measure(), shown).first
    assert cold.startswith("read blade width, about 30"), "cold since it was put down: what it starts from"
