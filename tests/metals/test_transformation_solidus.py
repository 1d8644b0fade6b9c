"""Tests of where iron and steel begin to melt."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.metals.grade import grades
from coach.metals.transformation import HIGHEST_CARBON_SHARE, solidus_c
from coach.quantities.refusal import OutOfRange

shares = st.floats(min_value=0, max_value=HIGHEST_CARBON_SHARE)


# The straight line between the invariants of the iron-carbon diagram, worked apart from the program; 15 °C
# from the curved line (from memory).
@pytest.mark.parametrize(
    ("carbon_share", "expected_c"),
    [
        (0.03, 1523.5),
        (0.20, 1489.3),
        (0.40, 1454.2),
        (0.60, 1419.0),
        (0.85, 1375.1),
        (0.95, 1357.5),
        (1.05, 1340.0),
        (1.20, 1313.6),
    ],
)
def test_steel_begins_to_melt_where_the_line_says(carbon_share: float, expected_c: float) -> None:
    assert solidus_c(carbon_share) == pytest.approx(expected_c, abs=0.1)


@pytest.mark.parametrize(
    ("carbon_share", "expected_c"),
    # Invariants of the published diagram (confirmed): iron, the peritectic, the eutectic.
    [(0.0, 1538.0), (0.09, 1494.6), (0.13, 1494.6), (0.17, 1494.6), (2.14, 1148.4)],
)
def test_the_line_passes_through_the_invariants(carbon_share: float, expected_c: float) -> None:
    assert solidus_c(carbon_share) == pytest.approx(expected_c, abs=0.1)


@pytest.mark.parametrize("carbon_share", [-0.01, 2.15, 45.0, math.nan, math.inf, -math.inf])
def test_a_carbon_content_outside_the_diagram_is_refused_in_one_sentence(carbon_share: float) -> None:
    with pytest.raises(OutOfRange, match=r"0\.45 for C45") as refused:
        solidus_c(carbon_share)
    assert str(refused.value).endswith(".")
    assert "\n" not in str(refused.value)


@given(shares, shares)
def test_more_carbon_never_melts_later(one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert solidus_c(more) <= solidus_c(less)


def test_every_grade_is_forged_well_below_its_melting() -> None:
    # Commercial steel burns 80 to 150 °C below the line (from memory).
    for one in grades():
        if one.carbon_share is not None and one.forging_high_c is not None:
            assert one.forging_high_c <= solidus_c(one.carbon_share) - 80
