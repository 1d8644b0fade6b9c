"""The chance that several sizes all lie between their limits."""

from __future__ import annotations

from math import asin, inf, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.ledger.box import all_between


def hanging(sizes: int, together: float) -> list[list[float]]:
    """Sizes of one standard uncertainty each, every two with the same correlation."""
    return [[1.0 if i == j else together for j in range(sizes)] for i in range(sizes)]


@pytest.mark.parametrize(("limit", "chance"), [(1.0, 0.6827), (1.96, 0.9500), (2.0, 0.9545)])
def test_one_size_is_as_the_tables_of_the_normal_distribution_have_it(limit: float, chance: float) -> None:
    # Any table of the normal distribution, such as Abramowitz and Stegun, 26.1.
    assert all_between([0.0], [[1.0]], [(-limit, limit)]) == pytest.approx(chance, abs=5e-5)


@pytest.mark.parametrize("together", [-0.9, -0.5, 0.1, 0.3, 0.6, 0.9])
def test_two_sizes_with_one_limit_each_are_as_the_arcsine_has_it(together: float) -> None:
    # W. F. Sheppard 1899: a quadrant of a bivariate normal holds 1/4 + asin(r) / 2π.
    found = all_between([0.0, 0.0], hanging(2, together), [(-inf, 0.0)] * 2)
    assert found == pytest.approx(0.25 + asin(together) / (2.0 * pi), abs=0.01)


def test_two_sizes_are_as_a_library_of_numbers_prints_them() -> None:
    # NAG Library Manual, g01hac, example results: x = y = 0, rho = 0.1: 0.2659 (confirmed).
    assert all_between([0.0, 0.0], hanging(2, 0.1), [(-inf, 0.0)] * 2) == pytest.approx(0.2659, abs=5e-4)


@pytest.mark.parametrize(("sizes", "bound"), [(2, 1.92), (3, 2.06), (4, 2.16), (5, 2.23), (9, 2.42)])
def test_several_sizes_stay_under_one_limit_as_the_published_table_has_it(sizes: int, bound: float) -> None:
    # C. W. Dunnett, Journal of the American Statistical Association 50, 1955, one-sided, 0.05, correlations
    # 0.5, endless degrees of freedom: 19 in 20 (confirmed second-hand; two decimals of the bound are 0.1 %).
    found = all_between([0.0] * sizes, hanging(sizes, 0.5), [(-inf, bound)] * sizes)
    assert found == pytest.approx(0.95, abs=0.004)


@pytest.mark.parametrize(("sizes", "bound"), [(2, 2.21), (3, 2.35), (4, 2.44), (5, 2.51), (6, 2.57)])
def test_several_sizes_stay_between_two_limits_as_the_published_table_has_it(
    sizes: int, bound: float
) -> None:
    # C. W. Dunnett, "New tables for multiple comparisons with a control", Biometrics 20, 1964, two-sided,
    # 0.05, correlations 0.5, endless degrees of freedom: 19 in 20 (from memory).
    found = all_between([0.0] * sizes, hanging(sizes, 0.5), [(-bound, bound)] * sizes)
    assert found == pytest.approx(0.95, abs=0.004)


@pytest.mark.parametrize("seed", range(12))
def test_it_is_near_what_draws_by_chance_come_to(seed: int) -> None:
    random = np.random.default_rng(seed)
    sizes = int(random.integers(4, 13))
    loads = random.normal(size=(sizes, sizes + 2)) * (random.random((sizes, sizes + 2)) < 0.5)
    loads += 0.5 * np.eye(sizes, sizes + 2)
    covariance = loads @ loads.T
    doubts = np.sqrt(np.diag(covariance))
    means = random.normal(0.0, 0.4, sizes) * doubts
    reach = random.uniform(1.2, 3.0, sizes) * doubts
    low = np.where(random.random(sizes) < 0.8, -reach, -inf)
    high = np.where(random.random(sizes) < 0.8, reach, inf)
    drawn = random.multivariate_normal(means, covariance, 20_000)
    true = float(((drawn > low) & (drawn < high)).all(axis=1).mean())
    found = all_between(means.tolist(), covariance.tolist(), list(zip(low, high, strict=True)))
    # Two hundredths is the worst that was found in 60 such cases; 20,000 draws are good to one.
    assert found == pytest.approx(true, abs=0.02)


def test_sizes_that_have_nothing_to_do_with_one_another_multiply() -> None:
    apart = [[1.0, 0.0], [0.0, 4.0]]
    both = all_between([0.0, 1.0], apart, [(-1.0, 1.0), (-3.0, 5.0)])
    assert both == pytest.approx(0.6827 * 0.9545, abs=1e-4)


def test_what_is_sure_changes_nothing_and_what_is_hopeless_settles_it() -> None:
    together = hanging(2, 0.5)
    assert all_between([], [], []) == 1.0
    assert all_between([0.0, 0.0], together, [(-1.0, 1.0), (-inf, inf)]) == pytest.approx(0.6827, abs=1e-4)
    assert all_between([0.0, 0.0], together, [(-1.0, 1.0), (40.0, 50.0)]) == 0.0


def test_a_size_that_is_known_for_certain_is_inside_or_is_not() -> None:
    assert all_between([5.0], [[0.0]], [(4.0, 6.0)]) == 1.0
    assert all_between([7.0], [[0.0]], [(4.0, 6.0)]) == 0.0


def test_one_and_the_same_size_is_told_no_better_and_little_worse_than_once() -> None:
    found = all_between([0.0] * 3, hanging(3, 1.0), [(-1.0, 1.0)] * 3)
    assert 0.6827 - 0.07 < found <= 0.6827


@given(
    st.lists(st.floats(-3.0, 3.0), min_size=1, max_size=6),
    st.floats(0.0, 0.95),
    st.floats(0.1, 3.0),
    st.floats(0.0, 2.0),
)
def test_it_is_a_chance_and_wider_limits_never_lower_it(
    means: list[float], together: float, reach: float, wider: float
) -> None:
    covariance = hanging(len(means), together)
    narrow = all_between(means, covariance, [(-reach, reach)] * len(means))
    wide = all_between(means, covariance, [(-reach - wider, reach + wider)] * len(means))
    assert 0.0 <= narrow <= 1.0
    assert narrow <= wide + 0.005  # which is as near as the reckoning is, mostly
