"""A way back that puts a step in moves those after it on: what was told of one goes with it."""

from __future__ import annotations

from itertools import groupby

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.telling.next_time import next_time_section
from coach.telling.page import Line
from coach.telling.writing import Shown
from tests.bench.test_burnt_end import at


def burnt_at_the_quench() -> Session:
    """An edge of which 8 mm burnt in the heat to harden, step 4; it is normalised once more before that."""
    session = at("harden")
    session.note("The blast stood open.")
    session.lose(LossAsked("edge", "8"))
    session.take("draw-again-edge")
    while session.standing().step is not None:
        session.done()
    return session


def test_what_happened_at_a_step_is_told_of_it_by_the_number_that_it_has_now() -> None:
    """The quench was step 4 and is step 5 behind the one that was put in: its title stays the same."""
    session = burnt_at_the_quench()
    titles = [one.title for one in session.recipe.steps]
    assert titles[3].startswith("Again:")
    quench = 1 + titles.index(next(one for one in titles if one.startswith("Harden")))
    assert quench == 5
    sheet = session.sheet()
    assert [one.step for one in (*sheet.lost, *sheet.ways_back)] == [quench] * 2
    assert [one.step for one in sheet.notes] == [quench]
    assert {(one.of, one.step) for one in session.next_time().costs if one.of != "heats"} == {
        ("metal", quench),
        ("chance", quench),
    }


def test_the_accident_is_named_with_the_chance_that_it_took_as_with_its_metal() -> None:
    section = next_time_section(burnt_at_the_quench().next_time(), Shown())
    metal, _, chance = [one.words for one in section.body if isinstance(one, Line)]
    assert "8 mm of the end of the edge, burnt" in metal
    assert chance.startswith(
        "Most chance went at step 5, Harden the edge, with 8 mm of the end of the edge, burnt: "
    )


def test_the_gone_spare_counts_its_steps_as_the_list_of_them_does() -> None:
    # To the quench, from there back to the step that was put in before it, and on to the end.
    points = burnt_at_the_quench().spare_gone(every=True).points
    steps = [step for step, _ in groupby(one.step for one in points)]
    assert steps[:6] == [1, 2, 3, 5, 4, 5]
    assert steps[5:] == sorted(steps[5:])
