"""A smith's own curve goes to what is read, never past it, and is doubted less with every reading."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from coach.metals.own_curve import FILE_DOUBT_HRC, FILE_HRC, OwnCurve, untaught
from coach.metals.tempering import tempered_hrc
from coach.metals.tempering_table import tempering_row
from coach.telling.words import write

hardness = st.floats(20.0, 67.0)
offset = st.floats(-8.0, 8.0)
doubt = st.floats(0.2, 4.0)


@given(offset, doubt, hardness, hardness, doubt)
def test_a_testers_reading_is_gone_towards_and_never_past(
    off: float, sure: float, expected: float, read: float, by: float
) -> None:
    before = OwnCurve(off, sure)
    after = before.after_tester(expected, read, by)
    whole = read - expected - off
    assert min(0.0, whole) - 1e-9 <= after.offset_hrc - off <= max(0.0, whole) + 1e-9
    assert after.doubt_hrc < min(before.doubt_hrc, by) + 1e-9


@given(doubt, hardness, st.lists(st.floats(-6.0, 6.0), min_size=2, max_size=5))
def test_in_which_order_a_tester_is_read_makes_no_difference(
    sure: float, expected: float, off: list[float]
) -> None:
    def after(readings: list[float]) -> OwnCurve:
        curve = OwnCurve(0.0, sure)
        for one in readings:
            curve = curve.after_tester(expected, expected + one, 0.7)
        return curve

    there, back = after(off), after(off[::-1])
    assert (there.offset_hrc, there.doubt_hrc) == pytest.approx((back.offset_hrc, back.doubt_hrc), abs=1e-9)


@given(doubt, st.floats(0.5, 6.0))
def test_each_further_reading_that_says_the_same_moves_less(sure: float, off: float) -> None:
    curve, moves = OwnCurve(0.0, sure), []
    for _ in range(4):
        following = curve.after_tester(55.0, 55.0 + off, 0.7)
        moves.append(following.offset_hrc - curve.offset_hrc)
        curve = following
    assert moves == sorted(moves, reverse=True)


def test_a_reading_is_weighed_as_by_the_textbook() -> None:
    # Factor 1.40 ± 0.20 on a prior of 1.00 ± 0.25 leaves 1.2439 ± 0.1562 (a mean with known variance,
    # Gelman and others, Bayesian Data Analysis, 3rd ed., 2.5; computed outside the code).
    curve = OwnCurve(1.00, 0.25).after_tester(0.0, 1.40, 0.20)
    assert (curve.offset_hrc, curve.doubt_hrc) == pytest.approx((1.2439, 0.1562), abs=1e-4)


@given(offset, doubt, hardness, st.booleans())
def test_a_file_moves_the_curve_up_where_it_skates_and_down_where_it_bites(
    off: float, sure: float, expected: float, skates: bool
) -> None:
    before = OwnCurve(off, sure)
    after = before.after_file(expected, skates=skates)
    moved = after.offset_hrc - off
    assert moved >= -1e-9 if skates else moved <= 1e-9
    assert after.doubt_hrc <= before.doubt_hrc + 1e-9


@pytest.mark.parametrize(("expected", "skates"), [(57.0, True), (62.0, False), (60.0, True)])
def test_a_file_leaves_the_moments_of_what_it_does_not_exclude(expected: float, skates: bool) -> None:
    sure = 1.5

    def weight(off: float) -> float:
        z = (expected + off - FILE_HRC) / FILE_DOUBT_HRC
        return float(stats.norm.pdf(off, 0.0, sure) * stats.norm.cdf(z if skates else -z))

    whole, first, second = (
        integrate.quad(lambda off, power=power: off**power * weight(off), -15.0, 15.0)[0]
        for power in (0, 1, 2)
    )
    mean = first / whole
    curve = OwnCurve(0.0, sure).after_file(expected, skates=skates)
    assert curve.offset_hrc == pytest.approx(mean, abs=1e-6)
    assert curve.doubt_hrc**2 == pytest.approx(second / whole - mean**2, abs=1e-6)


def test_a_file_that_does_what_was_to_be_expected_says_next_to_nothing() -> None:
    before = OwnCurve(0.0, 1.2)
    assert before.after_file(67.0, skates=True).offset_hrc < 0.05
    assert before.after_file(50.0, skates=False).offset_hrc > -0.05


def test_a_row_is_told_as_the_smiths_own_and_by_its_smaller_doubt() -> None:
    row = tempering_row("1084", 5.0, "oil")
    assert row is not None
    curve = untaught(row).after_tester(tempered_hrc(row, 204.0, 1.5).hrc, 57.0, 0.7)
    own = tempered_hrc(curve.row(row), 204.0, 1.5)
    published = tempered_hrc(row, 204.0, 1.5)
    assert 57.0 < own.hrc < published.hrc
    assert own.doubt_hrc < published.doubt_hrc
    assert "3 HRC softer than the table" in write(curve.row(row).stands)


def test_a_file_that_skates_cuts_off_what_is_softer_and_lifts_no_higher_than_it_is_told() -> None:
    # A file skates from some 60 HRC on (from memory): of steel that may have 58 it says that it is
    # not much softer, and nothing of how much harder it may be (common practice, no source).
    before = OwnCurve(0.0, 5.0)
    after = before.after_file(58.0, skates=True, most_hrc=0.0)
    assert after.offset_hrc == 0.0
    assert after.doubt_hrc < 4.0
    assert after.harder_doubt_hrc == 5.0
    assert after.after_tester(58.0, 57.0, 0.7).harder_doubt_hrc is None
    assert OwnCurve(2.0, 1.0).after_file(58.0, skates=True, most_hrc=0.0).offset_hrc == 2.0
