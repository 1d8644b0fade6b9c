"""A bar and what it is drawn to are never one size on a plan in inches."""

from __future__ import annotations

import re
from pathlib import Path

from tests.cli.conftest import Coach

SICKLE = Path(__file__).parents[2] / "recipes/garden-sickle.yaml"


def test_a_bar_and_what_it_is_drawn_to_are_told_apart_on_the_plan(coach: Coach) -> None:
    """The sickle's flat bar of 25 × 5 mm is brought down to 4.6 mm: 0.1969 in to 0.1811 in (arithmetic)."""
    told = re.sub(r"\s+", " ", coach("plan", str(SICKLE), "--units", "in").out)
    assert "flat 31/32 × 0.197 in" in told
    assert "bring it down to 0.181 in" in told
