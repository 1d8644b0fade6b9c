"""The standard normal distribution, held against Python's own, which tells it by other equations."""

from __future__ import annotations

from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.quantities.normal import below, density, quantile

_PYTHONS = NormalDist()


@given(st.floats(1e-300, 1.0 - 1e-15))
def test_a_quantile_is_that_of_python(share: float) -> None:
    assert quantile(share) == pytest.approx(_PYTHONS.inv_cdf(share), rel=1e-9, abs=1e-12)


@given(st.floats(-8.0, 8.0))
def test_the_share_below_and_the_density_are_those_of_python(z: float) -> None:
    assert density(z) == pytest.approx(_PYTHONS.pdf(z), rel=1e-12)
    assert below(z) == pytest.approx(_PYTHONS.cdf(z), rel=1e-9, abs=1e-15)
