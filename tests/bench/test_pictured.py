"""A picture of the piece in hand shows no more than was worked of it."""

from __future__ import annotations

from coach.telling.pictured import pictured_text
from tests.bench.jobs import at_step_of, begun
from tests.bench.test_metal_lost import PIN


def test_after_one_heat_of_several_a_zone_is_drawn_as_the_step_began() -> None:
    """Nobody knows after the first of three heats what was drawn of a point: the bar is 12 mm square."""
    session = begun(PIN)
    session.done()
    session.heat()
    drawn = session.pictured()
    assert drawn.as_it_began == ("point",)
    assert drawn.forms["point"].size_mm("side") == 12.0
    told = pictured_text(drawn, session.recipe.pieces["pin"].zones)
    assert told == "point as the step began, not read since"


def test_once_all_heats_are_marked_it_is_drawn_as_planned_and_told_so() -> None:
    session = begun(PIN)
    session.done()
    for _ in range(3):
        session.heat()
    drawn = session.pictured()
    assert drawn.as_planned == ("point",)
    assert drawn.forms == session.forms_now()


def test_once_a_size_of_it_is_read_it_is_drawn_by_that() -> None:
    session = begun(PIN)
    session.heat()
    session.read("shank.side", "11")
    drawn = session.pictured()
    assert (drawn.as_it_began, drawn.as_planned) == ((), ())
    assert drawn.forms["shank"].size_mm("side") == 11.0


def test_a_zone_that_was_worked_in_an_earlier_step_stays_as_that_left_it() -> None:
    session = begun(PIN)
    session.heat()
    session.read("shank.side", "10")
    session.done()
    session.heat()
    assert session.pictured().forms["shank"].size_mm("side") == 10.0


def test_a_size_that_does_not_agree_with_the_metal_is_drawn_as_it_is_told() -> None:
    """A shank read at 6.8 square and 140 long holds less than its bar gave: it is believed thicker."""
    session = at_step_of("first-hook", 3)
    session.heat()
    session.read("shank.side", "6.8")
    session.take("accept")
    session.read("shank.length", "140")
    session.read("shank.side", "6.8")
    assert session.forms_now()["shank"].size_mm("side") > 6.9
    for _ in ("in the step", "when it is done"):
        shank = session.pictured().forms["shank"]
        assert shank.size_mm("side") == 6.8
        assert shank.length_mm == 140.0
        session.done()
