"""A thin size in inches is told as what it is: a thirty-second is a good part of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.quantities.figure import mm
from coach.quantities.limits import Limits
from coach.telling.figures import apart, write_figure
from coach.telling.limits import write_aim, write_limits
from coach.telling.writing import Shown, write_length

INCHES = Shown("in")


@pytest.mark.parametrize(
    ("size_mm", "told"),
    [
        (5.0, "0.197 in"),  # 5 / 25.4 = 0.1969; 6.3 thirty-seconds, 12.6 sixty-fourths
        (4.6, "0.181 in"),  # 4.6 / 25.4 = 0.1811; 5.8, 11.6
        (1.0, "0.039 in"),  # 0.0394; 1.26, 2.5
        (4.0, "5/32 in"),  # 5.04 thirty-seconds: 0.8 % off
        (2.0, "5/64 in"),  # 5.04 sixty-fourths
        (3.175, "1/8 in"),
        (0.0, "0 in"),
        (8.2, "5/16 in"),  # a rule tells it: 10.3 thirty-seconds
    ],
)
def test_a_thin_size_is_told_by_a_calliper_where_no_fraction_is_near(size_mm: float, told: str) -> None:
    assert write_length(size_mm, INCHES) == told
    assert write_limits(Limits(size_mm, size_mm, size_mm, stated=False), INCHES) == told
    assert write_aim(Limits(size_mm, size_mm, size_mm, stated=False), INCHES) == told


@given(st.floats(0.8, 6.0), st.floats(1.05, 2.0))
def test_two_thin_sizes_of_which_one_is_a_twentieth_more_are_never_told_alike(
    thin_mm: float, share: float
) -> None:
    assert write_length(thin_mm, INCHES) != write_length(share * thin_mm, INCHES)


def test_how_far_two_thin_sizes_are_apart_is_what_is_told_of_them() -> None:
    """0.197 less 0.181 (arithmetic)."""
    assert write_figure(apart(mm(5.0), mm(4.6), INCHES), INCHES) == "0.016 in"


def test_what_the_doubt_leaves_in_fractions_stays_in_fractions() -> None:
    assert write_figure(mm(5.0, 0.4), INCHES, "±") == "3/16 ±1/32 in"
