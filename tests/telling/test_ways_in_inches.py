"""What a way back brings a size to is told in inches inside the limits that hold for it."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from coach.quantities import Limits, aimed, say
from coach.telling.limits import write_limits
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.telling.test_ways_back import HOOK

INCHES = Shown("in")


def _inches(text: str) -> float:
    """`1 3/32`, `0.268` by arithmetic."""
    whole, _, part = text.rpartition(" ") if "/" in text else (text, "", "0/1")
    top, bottom = part.split("/")
    return float(whole or 0) + int(top) / int(bottom)


@given(st.floats(2.0, 300.0), st.floats(0.01, 0.2), st.floats(0.0, 1.0))
def test_a_size_inside_its_limits_is_told_inside_them(middle_mm: float, share: float, at: float) -> None:
    low_mm, high_mm = middle_mm * (1.0 - share), middle_mm * (1.0 + share)
    size_mm = low_mm + at * (high_mm - low_mm)
    told = write(say("{:aim}", aimed(size_mm, Limits(middle_mm, low_mm, high_mm, True))), INCHES)
    assert low_mm - 1e-6 <= 25.4 * _inches(told.removesuffix(" in")) <= high_mm + 1e-6


def test_a_size_that_is_outside_is_told_as_it_is() -> None:
    """4.6 / 25.4 = 0.181."""
    assert write(say("{:aim}", aimed(4.6, Limits(5.0, 4.9, 5.1, True))), INCHES) == "0.181 in"


def test_what_is_accepted_has_one_size_in_the_title_and_in_the_limits_that_it_makes() -> None:
    session = shop().begin(HOOK.read_text("utf-8"), HOOK.name)
    for _ in range(2):
        session.done()
    session.read("shank.side", "6.8", insist=True)
    (way,) = (one for one in session.ways_back() if one.name == "accept-shank-side")
    title = write(way.title, INCHES)
    session.take(way.name)
    (row,) = (one for one in session.standing().sizes if one.name == "shank.side")
    told = write_limits(row.wanted.limits, INCHES).split(" ±")[0]
    assert title == f"Accept the shank side at {told} in"
    found = re.search(r"at (.*) in", title)
    assert found
    assert abs(25.4 * _inches(found[1]) - row.wanted.limits.nominal) < 0.02
