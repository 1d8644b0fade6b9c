"""Verdicts by the guard-banded decision rule."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.ledger.verdict import PlanState, Verdict, at_most, conformance, judge, plan_state
from coach.quantities import Limits

WANTED = Limits(25.0, 24.5, 25.5, True)


@pytest.mark.parametrize(
    ("size", "verdict"),
    [
        # ISO 14253-1:2017 and JCGM 106:2012 with a guard band of 1.645 u (rule from memory): L, U = 24.5,
        # 25.5 and u = 0.2 give g = 0.329, so 24.829 to 25.171 is good and beyond 24.171 or 25.829 is out.
        (24.82902, Verdict.GOOD),
        (24.82892, Verdict.UNSURE),
        (25.17, Verdict.GOOD),
        (25.18, Verdict.UNSURE),
        (25.83, Verdict.OUT),
        (25.60, Verdict.UNSURE),
        (24.70, Verdict.UNSURE),
    ],
)
def test_a_size_is_judged_with_guard_bands(size: float, verdict: Verdict) -> None:
    judged = judge(size, 0.2, WANTED, grows=None)
    assert judged.verdict is verdict
    assert not judged.too_coarse


@pytest.mark.parametrize(
    ("size", "chance"),
    # Φ((U − y)/u) − Φ((L − y)/u), from tables of the normal distribution.
    [(25.0, 0.9876), (24.84, 0.9550), (24.5, 0.5000), (25.6, 0.3085), (24.2, 0.0668)],
)
def test_the_chance_of_conforming_is_the_normal_distribution_s(size: float, chance: float) -> None:
    assert conformance(size, 0.2, WANTED) == pytest.approx(chance, abs=1e-4)


@pytest.mark.parametrize(
    ("size", "grows", "verdict", "below"),
    [
        (31.0, False, Verdict.MORE_TO_GO, False),  # drawn down to 28: still too thick
        (24.0, False, Verdict.GONE_PAST, True),
        (24.0, True, Verdict.MORE_TO_GO, True),  # spread or opened to 28: still too small
        (31.0, True, Verdict.GONE_PAST, False),
        (31.0, None, Verdict.OUT, False),
        (28.2, False, Verdict.GOOD, False),
        (29.1, False, Verdict.MORE_TO_GO, False),  # within the guard band, but there is work to do
        (28.9, False, Verdict.UNSURE, False),
        (26.9, False, Verdict.UNSURE, True),
    ],
)
def test_outside_the_limits_counts_by_the_way_the_work_goes(
    size: float, grows: bool | None, verdict: Verdict, below: bool
) -> None:
    judged = judge(size, 0.15, Limits(28.0, 27.0, 29.0, True), grows=grows)
    assert (judged.verdict, judged.below) == (verdict, below)


def test_a_gauge_whose_guard_bands_meet_is_too_coarse_to_say_good() -> None:
    judged = judge(25.0, 0.4, WANTED, grows=None)
    assert judged.verdict is Verdict.UNSURE
    assert judged.too_coarse


def test_a_size_with_one_limit_has_one_guard_band() -> None:
    at_least = Limits(40.0, 40.0, inf, True)
    assert judge(500.0, 1.0, at_least, grows=None).verdict is Verdict.GOOD
    assert judge(41.0, 1.0, at_least, grows=None).verdict is Verdict.UNSURE
    assert judge(38.0, 1.0, at_least, grows=None).verdict is Verdict.OUT
    assert not judge(38.0, 100.0, at_least, grows=None).too_coarse


@given(st.floats(20.0, 30.0), st.floats(0.01, 0.5))
def test_what_is_called_good_conforms_nineteen_times_in_twenty(size: float, doubt: float) -> None:
    judged = judge(size, doubt, WANTED, grows=None)
    if judged.verdict is Verdict.GOOD:
        # One limit at a time: 95 % each, so no less than 90 % when the other is as near.
        assert at_most(WANTED.high, size, doubt) >= 0.9499
        assert 1.0 - at_most(WANTED.low, size, doubt) >= 0.9499
    if judged.verdict is Verdict.OUT:
        assert conformance(size, doubt, WANTED) <= 0.0501


@pytest.mark.parametrize(
    ("chance", "word"),
    [
        (1.0, PlanState.ON_PLAN),
        (0.95, PlanState.ON_PLAN),
        (0.949, PlanState.TIGHT),
        (0.80, PlanState.TIGHT),
        (0.799, PlanState.OFF_PLAN),
        (0.0, PlanState.OFF_PLAN),
    ],
)
def test_the_piece_s_word_goes_by_its_chance(chance: float, word: PlanState) -> None:
    assert plan_state(chance) is word


def test_a_certain_size_is_simply_inside_or_not() -> None:
    assert at_most(10.0, 10.0, 0.0) == 1.0
    assert at_most(10.0, 10.1, 0.0) == 0.0
    assert at_most(inf, 1.0, 1.0) == 1.0
    assert at_most(-inf, 1.0, 1.0) == 0.0
