"""Where spreading does not bring a taper to its widths, the plan says so of the section that is shortest."""

from __future__ import annotations

import re

import pytest

from coach.bench.time_at_heat import time_at_heat
from coach.telling.words import write
from tests.ledger.recipes import planned

FAN = """\
recipe: Fan
pieces:
  fan:
    metal: mild steel
    bar: 30 x 10
    size: AIM, long 120 ±15
steps:
  - spread: fan, AIM, long free, 6 heats, bite 28, at light yellow
"""
SHORT = re.compile(r"The width (.*?) ?comes out at ([\d.]+) mm instead of ([\d.]+) mm")


def shorts(aim: str) -> list[tuple[str, float, float]]:
    plan = planned(FAN.replace("AIM", aim))
    told = time_at_heat(plan, plan.recipe.steps[0], 0.0)
    assert told is not None
    found = (SHORT.search(write(one)) for one in told.advice)
    return [(one[1], float(one[2]), float(one[3])) for one in found if one]


@pytest.mark.parametrize(
    ("aim", "where", "wanted"),
    [
        ("55 ±4 x 2.8 to 105 ±5 x 2.8", "at its end", 105.0),
        ("105 ±5 x 2.8 to 55 ±4 x 2.8", "where it begins", 105.0),
        ("50 ±4 x 2.8 to 60 ±5 x 2.8", "at its end", 60.0),  # the middle, of 55, is short too, and less so
    ],
)
def test_the_plan_says_that_a_wide_end_is_not_reached_by_spreading(
    aim: str, where: str, wanted: float
) -> None:
    # By hand, Tomlinson and Stringer: b/w = 28/30, s = 0.14 + 0.36 · 0.933 - 0.054 · 0.871 = 0.429, and
    # 30 · (10/2.8)^0.429 = 51.8 mm.
    ((told, comes_mm, of_mm),) = shorts(aim)
    assert (told, of_mm) == (where, wanted)
    assert comes_mm == pytest.approx(51.8, rel=0.01)


def test_of_a_taper_whose_ends_are_reached_nothing_is_said() -> None:
    assert shorts("45 ±4 x 2.8 to 50 ±5 x 2.8") == []
