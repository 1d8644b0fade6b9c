"""A ring that is only bent and welded keeps its length: its heats thin the bar, and make no ring smaller."""

from __future__ import annotations

from math import pi

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.recipe.reader import read_recipe

RECIPE = """\
recipe: Bent
{scale}pieces:
  ring:
    metal: mild steel
    bar: {bar}
    size: {size}
steps:
  - cut: ring, cold, kerf 2
  - {bent}
"""
RING = "round 10", "ring of round 10, inside 150 ±5"
CLOSED = "bend: ring, ring, {} heats\n  - weld shut: ring, {} heats, at 1300 °C"


def planned(bar: str, size: str, bent: str, scale: str = "") -> Plan:
    """The plan of one piece that is bent, and perhaps welded."""
    return look_back(read_recipe(RECIPE.format(bar=bar, size=size, bent=bent, scale=scale), "job.yaml"))


@pytest.mark.parametrize("heats", [(1, 1), (2, 1), (2, 2), (4, 3)])
def test_a_welded_ring_is_cut_its_middle_and_its_weld_long_however_many_heats_it_takes(
    heats: tuple[int, int],
) -> None:
    # By hand: π · (150 + 10) = 502.7 mm round its middle, and 0.4 · 10 = 4 mm for its weld. A bar that is
    # scaled 0.1 mm thinner a heat lies so much farther in: π · 0.3 = 1 mm at the most.
    plan = planned(*RING, CLOSED.format(*heats))
    assert plan.cuts[0].length.value == pytest.approx(pi * 160.0 + 4.0, abs=1.5)


def test_its_bend_asks_for_a_size_that_it_leaves() -> None:
    plan = planned(*RING, CLOSED.format(2, 2))
    bend = plan.stages["ring"][1]
    for name, limits in bend.step.targets.items():
        assert limits.contains(bend.form_after.size_mm(name)), name
    # The 4 mm that its weld takes are 4 / π = 1.3 mm across.
    assert bend.form_after.size_mm("inner_diameter") == pytest.approx(150.0 + 4.0 / pi, abs=0.3)


def test_its_heats_thin_its_bar() -> None:
    plan = planned(*RING, CLOSED.format(2, 2))
    assert plan.stages["ring"][-1].form_after.size_mm("diameter") < 9.95


@pytest.mark.parametrize(
    ("bar", "size", "bent"),
    [
        ("round 10", "link, inner long 60 ±8, inner wide 20 ±2, diameter 10", "bend: ring, link, 2 heats"),
        ("40 x 6", "ring of 40 x 6, inside 150 ±5", "bend: ring, ring, 2 heats"),
        ("25 x 8", "ring of 25 x 8, inside 150 ±5", "bend on edge: ring, ring, 2 heats"),
    ],
)
def test_no_length_is_made_up_for_the_scale_of_a_ring_that_is_only_bent(
    bar: str, size: str, bent: str
) -> None:
    # A hundredth for the middle of the bar, which lies elsewhere once it is thinner (by hand, as above).
    cut, unscaled = (planned(bar, size, bent, scale).cuts[0].length.value for scale in ("", "scale: none\n"))
    assert cut == pytest.approx(unscaled, rel=0.01)


@pytest.mark.parametrize("drawn", ["9.6", "10", "9 ±1.5"])
def test_a_ring_whose_bar_is_a_little_thicker_than_its_drawing_keeps_its_bar_and_is_cut_long_enough(
    drawn: str,
) -> None:
    # By hand: π · (64 + 10) round the middle of the bar that is there, and 0.4 · 10 mm for its weld.
    plan = planned("round 10", f"ring of round {drawn}, inside 64 ±2", CLOSED.format(2, 1), "scale: none\n")
    assert plan.cuts[0].length.value == pytest.approx(pi * 74.0 + 4.0, abs=0.1)
    bend = plan.stages["ring"][1]
    for name, limits in bend.step.targets.items():
        assert limits.contains(bend.form_after.size_mm(name)), name
    assert bend.form_after.size_mm("diameter") == pytest.approx(10.0)
