"""A chance that fell by less than two whole per cents show is told so, and not as from 99 to 99."""

from __future__ import annotations

import pytest

from coach.bench.chance_fell import chance_fell
from coach.telling.words import write
from coach.telling.writing import Shown


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        (0.997, 0.986, "down by less than 2 in 100, to 99 %"),
        (0.99999, 0.9802, "down by less than 2 in 100, to 98 %"),
        (0.999, 0.97, "from over 99 % to 97 %"),
        (0.4, 0.2, "from 40 % to 20 %"),
    ],
)
def test_a_fall_is_told_as_far_as_it_is_seen(before: float, after: float, told: str) -> None:
    assert write(chance_fell(before, after), Shown()) == told
