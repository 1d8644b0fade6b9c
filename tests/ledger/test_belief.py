"""The belief against textbook linear-Gaussian algebra done by numpy."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from coach.ledger.belief import Belief, Change

Matrix = NDArray[np.float64]

NAMES = ("a", "b", "c", "d")
_size = st.floats(-10.0, 10.0)
_spread = st.floats(0.1, 5.0)


@st.composite
def gaussians(draw: st.DrawFn) -> tuple[Belief, Matrix, Matrix]:
    """A belief over four quantities, with its mean and covariance as numpy has them."""
    mean = np.array([draw(_size) for _ in NAMES])
    root = np.array([[draw(_size) for _ in NAMES] for _ in NAMES])
    sources = {f"source {i}": Change(0.0, variance=1.0) for i in range(len(NAMES))}
    own = np.array([draw(_spread) for _ in NAMES])
    belief = Belief().predict(sources)
    changes = {
        name: Change(mean[i], {f"source {j}": root[i, j] for j in range(len(NAMES))}, own[i])
        for i, name in enumerate(NAMES)
    }
    return belief.predict(changes, dropped=sources), mean, root @ root.T + np.diag(own)


def mean_of(belief: Belief) -> Matrix:
    return np.array([belief.mean(name) for name in belief.names])


def covariance_of(belief: Belief) -> Matrix:
    return np.array([[belief.covariance(one, other) for other in belief.names] for one in belief.names])


@given(gaussians())
def test_a_belief_built_from_common_causes_has_their_covariance(
    given_: tuple[Belief, Matrix, Matrix],
) -> None:
    belief, mean, covariance = given_
    assert belief.names == NAMES
    np.testing.assert_allclose(mean_of(belief), mean)
    np.testing.assert_allclose(covariance_of(belief), covariance, atol=1e-9)


@given(gaussians(), st.lists(_size, min_size=4, max_size=4), st.floats(-20.0, 20.0), _spread)
def test_a_reading_updates_as_the_textbook_does(
    given_: tuple[Belief, Matrix, Matrix], slopes: list[float], surprise: float, variance: float
) -> None:
    belief, mean, covariance = given_
    after = belief.update(dict(zip(NAMES, slopes, strict=True)), surprise, variance)
    # Kalman's measurement update: K = P Hᵀ / (H P Hᵀ + R), x + K y, P − K H P (any estimation textbook, for
    # example A. Gelb, Applied Optimal Estimation, 1974; from memory).
    h = np.array(slopes)
    gain = covariance @ h / (h @ covariance @ h + variance)
    np.testing.assert_allclose(mean_of(after), mean + gain * surprise, rtol=1e-7, atol=1e-7)
    np.testing.assert_allclose(
        covariance_of(after), covariance - np.outer(gain, h @ covariance), rtol=1e-6, atol=1e-6
    )


@given(gaussians(), st.lists(st.lists(_size, min_size=4, max_size=4), min_size=2, max_size=2), _spread)
def test_a_step_moves_the_covariance_through_its_slopes(
    given_: tuple[Belief, Matrix, Matrix], rows: list[list[float]], own: float
) -> None:
    belief, mean, covariance = given_
    changes = {
        "a": Change(1.0, dict(zip(NAMES, rows[0], strict=True)), own),
        "new": Change(2.0, dict(zip(NAMES, rows[1], strict=True))),
    }
    after = belief.predict(changes, dropped=["d"])
    # J P Jᵀ + Q, the quantities in the belief's new order: kept ones first.
    jacobian = np.array([[0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], *rows])
    chance = np.diag([0.0, 0.0, own, 0.0])
    assert after.names == ("b", "c", "a", "new")
    np.testing.assert_allclose(mean_of(after), [mean[1], mean[2], 1.0, 2.0])
    np.testing.assert_allclose(
        covariance_of(after), jacobian @ covariance @ jacobian.T + chance, rtol=1e-7, atol=1e-7
    )


@given(gaussians(), st.lists(_size, min_size=4, max_size=4), _spread, _spread)
def test_a_better_gauge_never_leaves_more_doubt(
    given_: tuple[Belief, Matrix, Matrix], slopes: list[float], one: float, other: float
) -> None:
    belief, _, _ = given_
    weights = dict(zip(NAMES, slopes, strict=True))
    better, worse = sorted((one, other))
    sharp, blunt = belief.update(weights, 1.0, better), belief.update(weights, 1.0, worse)
    for name in NAMES:
        slack = 1e-9 * (1.0 + belief.variance(name))
        assert sharp.variance(name) <= blunt.variance(name) + slack
        assert blunt.variance(name) <= belief.variance(name) + slack


@given(gaussians(), st.lists(st.lists(_size, min_size=4, max_size=4), min_size=2, max_size=2))
def test_the_order_of_two_linear_readings_does_not_matter(
    given_: tuple[Belief, Matrix, Matrix], rows: list[list[float]]
) -> None:
    belief, _, _ = given_
    weights = [dict(zip(NAMES, row, strict=True)) for row in rows]
    answers = []
    for order in ((0, 1), (1, 0)):
        now = belief
        for at in order:
            expected = sum(weights[at][name] * now.mean(name) for name in NAMES)
            now = now.update(weights[at], (3.0, -2.0)[at] - expected, (0.5, 2.0)[at])
        answers.append(now)
    np.testing.assert_allclose(mean_of(answers[0]), mean_of(answers[1]), rtol=1e-5, atol=1e-5)
    np.testing.assert_allclose(covariance_of(answers[0]), covariance_of(answers[1]), rtol=1e-5, atol=1e-5)


def test_a_combination_counts_what_it_does_not_know_as_certain() -> None:
    belief = Belief().predict({"a": Change(1.0, variance=4.0)})
    assert belief.variance_of({"a": 3.0, "nowhere": 5.0}) == pytest.approx(36.0)
    assert "nowhere" not in belief
    with pytest.raises(KeyError):
        belief.mean("nowhere")


def test_a_reading_without_any_uncertainty_is_refused() -> None:
    belief = Belief().predict({"a": Change(1.0)})
    with pytest.raises(ValueError, match="uncertainty of its own"):
        belief.update({"a": 1.0}, 1.0, 0.0)


def test_a_belief_is_not_changed_by_what_is_made_of_it() -> None:
    belief = Belief().predict({"a": Change(1.0, variance=4.0)})
    belief.update({"a": 1.0}, 1.0, 1.0)
    belief.predict({"a": Change(7.0)})
    assert (belief.mean("a"), belief.variance("a")) == (1.0, 4.0)


def test_what_no_step_touches_stays_as_it_was_in_whichever_place_it_stood() -> None:
    belief = Belief().predict({name: Change(place, variance=1.0 + place) for place, name in enumerate("abc")})
    mixed = belief.predict({"b": Change(5.0, {"a": 0.5, "b": 1.0})})
    for changes, dropped in (({}, ["a"]), ({}, ["a", "c"]), ({"a": Change(0.0)}, ["c"]), ({}, [])):
        after = mixed.predict(changes, dropped)
        kept = [name for name in mixed.names if name not in {*dropped, *changes}]
        assert set(after.names) == {*kept, *changes}
        for one in kept:
            assert after.mean(one) == mixed.mean(one)
            assert [after.covariance(one, other) for other in kept] == [
                mixed.covariance(one, other) for other in kept
            ]
