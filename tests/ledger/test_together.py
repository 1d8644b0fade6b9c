"""The chance of several things at once."""

from __future__ import annotations

from math import asin, pi

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from coach.ledger.together import all_right


def test_things_that_have_nothing_to_do_with_one_another_multiply() -> None:
    apart = np.eye(3).tolist()
    assert all_right([0.9, 0.8, 0.7], apart) == pytest.approx(0.9 * 0.8 * 0.7)


@pytest.mark.parametrize("hang", [-0.9, -0.5, 0.3, 0.6, 0.9])
def test_two_even_chances_come_out_as_the_arcsine_has_it(hang: float) -> None:
    # Sheppard's formula for the quadrant of a bivariate normal: 1/4 + asin(r) / 2π.
    found = all_right([0.5, 0.5], [[1.0, hang], [hang, 1.0]])
    assert found == pytest.approx(0.25 + asin(hang) / (2.0 * pi), abs=0.01)


@pytest.mark.parametrize("zones", [2, 3, 4, 6])
def test_the_chance_of_all_zones_is_near_the_true_integral(zones: int) -> None:
    # Oracle: scipy's numerical integral of the multivariate normal.
    random = np.random.default_rng(zones)
    for _ in range(25):
        loads = random.normal(size=(zones, zones + 2))
        spread = loads @ loads.T
        doubts = np.sqrt(np.diag(spread))
        hang = spread / np.outer(doubts, doubts)
        chances = random.uniform(0.05, 0.995, zones)
        true = multivariate_normal(np.zeros(zones), hang).cdf(norm.ppf(chances))
        assert all_right(chances.tolist(), hang.tolist()) == pytest.approx(float(true), abs=0.03)


def test_the_chance_of_all_is_never_better_than_that_of_one() -> None:
    same = [[1.0, 1.0], [1.0, 1.0]]
    assert all_right([0.3, 0.9], same) <= 0.3
    assert all_right([0.3, 0.9], same) == pytest.approx(0.3, abs=0.01)


def test_what_is_sure_changes_nothing_and_what_is_hopeless_settles_it() -> None:
    hang = [[1.0, 0.5], [0.5, 1.0]]
    assert all_right([1.0, 0.6], hang) == pytest.approx(0.6)
    assert all_right([0.0, 0.6], hang) == 0.0
    assert all_right([], []) == 1.0
