"""Two sizes that are set against each other are never told as one size in fractions of an inch."""

from __future__ import annotations

import re

from coach.quantities import Apart, say
from coach.quantities.figure import Figure, Kind, mm
from coach.telling.words import write
from coach.telling.writing import METRIC, Shown
from tests.bench.jobs import at_step_of

INCHES = Shown("in")


def test_a_size_that_is_out_is_not_told_as_the_limit_that_it_is_out_of() -> None:
    """6.8 / 25.4 = 0.268, 7.2 / 25.4 = 0.283: both are nearest to 9/32 = 0.281 (arithmetic)."""
    size, limit = Figure(6.8, Kind.LENGTH, 0.15), mm(7.2)
    off = say("{:hair} under the", Apart(size, limit))
    told = write(say("the side is {}, {} {} allowed", size, off, limit), INCHES)
    assert "9/32" not in told
    assert "a hair" not in told
    assert re.findall(r"\d\.\d+", told) == ["0.268", "0.015", "0.283"], told


def test_sizes_that_fractions_tell_apart_stay_in_fractions() -> None:
    size, limit = mm(25.4), mm(28.575)
    assert (
        write(say("{}, {} under {}", size, Apart(size, limit), limit), INCHES)
        == "1 in, 1/8 in under 1 1/8 in"
    )


def test_millimetres_are_told_as_they_were() -> None:
    size, limit = mm(6.8), mm(7.2)
    assert (
        write(say("{}, {} under {}", size, Apart(size, limit), limit), METRIC)
        == "6.8 mm, 0.4 mm under 7.2 mm"
    )


def test_a_reading_that_is_out_is_told_how_far_and_against_a_limit_that_shows_it() -> None:
    from coach.telling.why import stands_text

    session = at_step_of("first-hook", 3)
    session.heat()
    session.read("shank.side", "6.8", insist=True)
    told = stands_text(session.standing(), INCHES)
    assert "a hair" not in told
    low, off, limit = (float(one) for one in re.findall(r"\d\.\d+", told)[:3])
    assert low < limit, told
    assert abs(limit - low - off) < 0.002, told
    assert abs(limit - 7.2 / 25.4) < 0.001, told  # the drawing's 8 ±0.8 mm
