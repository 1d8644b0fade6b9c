"""The ways back as they are told, and what is told where none is known."""

from __future__ import annotations

from pathlib import Path

from coach.ledger.verdict import PlanState
from coach.screens.bench_pages import ways_lines
from coach.telling.glance import glance
from coach.telling.page import Line, Section
from coach.telling.ways_back import no_way_back, ways_back_page
from coach.telling.why import stands_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.bench.test_settled_sizes import at_step

MM = Shown("mm")
#: The hook of the shelf, up to the bend of its shank.
HOOK = Path(__file__).parents[2] / "recipes" / "first-hook.yaml"


def test_a_bend_left_wrong_is_tight_with_no_chance_and_names_the_step_to_go_back_to() -> None:
    session = shop().begin(HOOK.read_text("utf-8"), HOOK.name)
    for _ in range(4):
        session.done()
    session.read("shank.radius", "45")
    session.done()
    standing = session.standing()
    assert standing.verdict is PlanState.TIGHT
    assert standing.chance > 0.95
    assert stands_text(standing, MM) == (
        "Tight: Shank: radius too high (step 5). Go back to step 5 and put it right there; of metal there is "
        "enough."
    )
    assert glance(standing, (), MM).chance == ""
    assert session.ways_back() == ()
    assert no_way_back(standing, back="F5", listed="+ and Enter") == (
        "No way back that is known betters it as the job stands. F5 goes back to step 5, Bend the hook, to "
        "work and to read it again. What is right by now is taken off the list with + and Enter."
    )
    session.back()
    assert session.standing().verdict is PlanState.ON_PLAN


def test_what_a_way_back_gives_up_is_told_with_its_price() -> None:
    session = shop().begin(HOOK.read_text("utf-8"), HOOK.name)
    for _ in range(8):
        session.done()
    session.read("shank.length", "165", insist=True)
    leaves = next(way for way in session.ways_back() if way.name == "too-much-metal-leave-shank-length")
    assert write(leaves.gives, MM) == "45 mm over"
    listed = ways_lines(session.standing(), MM, session.ways_back(), 80, 24)
    assert any("45 mm over" in line.plain for line in listed)


def test_what_else_may_not_pass_once_a_size_is_accepted_is_told_with_it() -> None:
    # Of a blade 14.7 mm thick for 17 the metal makes the length 43 mm, at the end of its 38 ±5.
    session = at_step("hedging-hatchet", 7)
    session.heat()
    session.heat()
    session.read("blade.thickness", "14.7", insist=True)
    told = ways_back_page(session.standing(), session.ways_back(), MM).sections
    minded = {one.heading.split(" (")[0]: _minded(one) for one in told}
    (risk,) = minded["Accept the blade thickness at 14.6 mm"]
    assert risk.startswith("blade length then 43")
    assert "of 38 ±5 mm: passes" in risk
    upset = next(told for heading, told in minded.items() if heading.startswith("Upset the blade"))
    assert not upset, "which brings the length to where it was to be"


def _minded(told: Section) -> list[str]:
    return [line.words for line in told.body if isinstance(line, Line) and line.label == "Mind"]


def test_of_ways_that_all_hardly_help_one_is_told_and_the_others_counted() -> None:
    session = shop().begin(HOOK.read_text("utf-8"), HOOK.name)
    for _ in range(8):
        session.done()
    session.read("shank.length", "165", insist=True)
    ways = session.ways_back()
    assert len(ways) > 1
    told = " ".join(line.plain for line in ways_lines(session.standing(), MM, ways, 80, 24))
    assert all(f"*{at}  " in told for at in range(1, len(ways) + 1))
    none = [way._replace(chance=0.001) for way in ways]
    told = " ".join(line.plain for line in ways_lines(session.standing(), MM, none, 80, 24))
    assert "*1  " in told
    assert "*2  " not in told
    assert f"{len(ways) - 1} more, none better: * lists them." in told
