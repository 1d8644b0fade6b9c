"""The ways back as they are told, and what is told where none is known."""

from __future__ import annotations

from pathlib import Path

from coach.ledger.verdict import PlanState
from coach.screens.bench_pages import ways_lines
from coach.telling.glance import glance
from coach.telling.ways_back import no_way_back
from coach.telling.why import stands_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop

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
