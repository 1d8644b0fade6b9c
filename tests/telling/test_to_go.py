"""A size in a few signs, each with its word."""

from __future__ import annotations

from math import inf
from pathlib import Path

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.quantities import Limits, Wanted
from coach.quantities.figure import Kind
from coach.screens.size_rows import size_rows
from coach.telling.reading import reading_sentence
from coach.telling.to_go import Aim, aim_of, to_go
from coach.telling.writing import Shown
from tests.bench.jobs import at_step, at_step_of, shop

MM = Shown("mm")


@pytest.mark.parametrize(
    ("wanted", "aim"),
    [
        (Wanted(Limits(28.0, 27.0, 29.0, True)), Aim("28", "±1", "mm")),
        (Wanted(Limits(36.0, 34.5, inf, True)), Aim("36", "≥34.5", "mm")),
        (Wanted(Limits(40.0, 40.0, inf, True)), Aim("40", "or more", "mm")),
        (Wanted(Limits(0.5, -inf, 0.5, True)), Aim("0.5", "or less", "mm")),
        (Wanted(Limits(815.0, 800.0, 830.0, True), Kind.TEMPERATURE), Aim("815", "800 to 830", "°C")),
        (Wanted(Limits(28.0, 28.0, 28.0, False)), Aim("28", "", "mm")),
    ],
)
def test_what_is_wanted_is_a_number_its_limits_and_its_unit(wanted: Wanted, aim: Aim) -> None:
    assert aim_of(wanted, MM) == aim


def test_in_inches_a_fraction_is_kept_whole() -> None:
    # 28.575 mm is 1 1/8 in by the definition of the inch, 25.4 mm.
    aim = aim_of(Wanted(Limits(28.575, 28.575, 28.575, False)), Shown("in"))
    assert aim == Aim("1 1/8", "", "in")
    aim = aim_of(Wanted(Limits(7.9375, 7.14375, 8.73125, True)), Shown("in"))  # 5/16 in, 1/32 in either way
    assert aim == Aim("5/16", "±1/32", "in")


def side(session: Session) -> Check:
    return next(one for one in session.standing().checks if one.name == "poll.side")


def test_each_reading_has_its_own_sign() -> None:
    session = at_step(2)  # an invented poll, wanted 34 ±1
    assert to_go(side(session), MM).sign == "·"
    session.heat()
    session.read("poll.side", "36.2")
    told = to_go(side(session), MM)
    assert (told.sign, told.amount, told.label) == ("▼", "2.2", "to go")
    session.read("poll.side", "34.1")
    told = to_go(side(session), MM)
    assert (told.sign, told.amount, told.words) == ("✓", "34.1", "good")
    session.read("poll.side", "80")
    assert to_go(side(session), MM).sign == "?"
    session.strike()
    session.heat()
    told = to_go(side(session), MM)
    assert (told.sign, told.words) == ("~", "old: read again")


def curled(radius: str) -> Check:
    """The tip of the shelf's hook, which is curled to 5 ±3 by eye."""
    path = Path(__file__).parents[2] / "recipes" / "first-hook.yaml"
    session = shop().begin(path.read_text("utf-8"), path.name)
    for _ in range(3):
        session.done()
    session.read("tip.radius", radius)
    return session.standing().checks[0]


def test_what_only_an_eye_judges_is_good_where_it_is_seen_inside_and_is_never_measured_again() -> None:
    inside = curled("7")
    assert inside.is_settled
    assert (to_go(inside, MM).sign, to_go(inside, MM).words) == ("✓", "good by eye")
    assert reading_sentence(inside, MM) == "tip radius 7 mm: good as far as the eye can tell, wanted 5 ±3 mm."
    outside = curled("1")
    assert not outside.is_settled
    assert to_go(outside, MM).words == "try a template"
    assert reading_sentence(outside, MM) == (
        "tip radius 1 mm: unsure, by eye it seems under the 2 mm allowed: hold a template to it."
    )


def test_a_finer_gauge_is_asked_for_where_reading_again_would_settle_nothing() -> None:
    session = at_step(2)
    session.read("poll.side", "34.2", gauge="tape")
    assert to_go(side(session), MM).words == "use a finer gauge"


@pytest.mark.parametrize(("typed", "read"), [("3 h", "3 h"), ("1 h 30 min", "1 h 30 min"), ("4", "4 min")])
def test_a_soak_is_told_in_its_row_with_its_unit(typed: str, read: str) -> None:
    """It may be minutes or hours: beside "1 h or more" a bare 3 tells nothing."""
    job = at_step_of("cold-chisel", 10)
    job.read("edge.soak", typed)
    rows = (line.plain for line in size_rows(job.standing().checks, None, MM, 80))
    assert f" {read} " in next(row for row in rows if "soak" in row)


def test_a_soak_over_its_most_is_told_in_its_row_with_the_unit_of_that_most() -> None:
    job = at_step_of("cold-chisel", 9)
    job.read("edge.soak", "90 min")
    soak = next(check for check in job.standing().checks if check.dimension == "soak")
    assert to_go(soak, MM).words == "out: over the most 10 min"
