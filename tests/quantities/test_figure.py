"""A figure says what of it is there for sure."""

from __future__ import annotations

import pytest

from coach.quantities import celsius, grams, mm
from coach.quantities.figure import Figure


@pytest.mark.parametrize(
    ("figure", "at_least"),
    # 95 % of a normal distribution lie above the mean less 1.645 standard deviations (JCGM 100:2008, G.1).
    [(mm(20.0, 2.0), 16.71), (grams(-5.0, 10.0), -21.45), (celsius(800.0, 0.0), 800.0), (mm(3.0), 3.0)],
)
def test_what_is_there_with_nineteen_chances_in_twenty_is_less_than_what_is_believed(
    figure: Figure, at_least: float
) -> None:
    assert figure.at_least.value == pytest.approx(at_least)
    assert figure.at_least[1:] == figure[1:]
