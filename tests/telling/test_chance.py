"""A chance is told in whole per cent."""

from __future__ import annotations

from math import nan

import pytest

from coach.telling.chance import chance_text


@pytest.mark.parametrize(
    ("chance", "shown"), [(0.974, "97 %"), (1.0, "over 99 %"), (0.0, "under 1 %"), (nan, "chance not known")]
)
def test_a_chance_is_never_told_as_certain(chance: float, shown: str) -> None:
    assert chance_text(chance) == shown
