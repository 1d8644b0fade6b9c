"""A bar that is bent on its edge is as thick there as it is wide."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.operations import operation
from coach.operations.bend_on_edge import side_changes
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.made import make
from tests.recipes.test_faults import faults_of

SWEPT = """
recipe: Swept strap
pieces:
  strap:
    metal: {metal}
    bar: {bar}
    zones:
      root: {bar}, long 40
      strap: {bar}, long 200 ±16
usual: {{at: light orange}}
steps:
  - mark out: strap
  - cut: strap, cold
  - {step}
"""


def told(step: str, bar: str = "25 x 5", metal: str = "mild steel") -> list[str]:
    text = SWEPT.format(bar=bar, step=step, metal=metal).replace("pieces:\n  strap:", "pieces:\n  body:")
    text = text.replace("mark out: strap", "mark out: body")
    planned = planned_tool(look_back(read_recipe(text, "strap.yaml")))
    found = [write(one.sentence) for one in planned.findings]
    found += [write(one.sentence) for one in planned.questions]
    return [one for one in found if "edge" in one or "arc" in one or "cold" in one]


# By hand: the middle of 25 mm swept to 100 mm inside lies at 112.5 mm; 90 degrees of it are 176.7 mm.
def test_its_arc_goes_by_the_middle_of_its_width() -> None:
    assert told("bend on edge: strap, radius 100, angle 90") == []
    (arc,) = told("bend on edge: strap, radius 150, angle 90")
    assert "an arc of 150 mm inside over 90° takes 255.5 mm of bar" in arc  # 162.5 · π/2 = 255.3, by halves


def test_it_cracks_cold_by_its_width() -> None:
    # Common practice, no source: spring steel is bent cold to four thicknesses and no tighter.
    assert told("bend: strap, radius 60 ±3, angle 90, cold", metal="1084") == []
    (cold,) = told("bend on edge: strap, radius 60 ±3, angle 90, cold", metal="1084")
    assert "60 mm inside on a thickness of 25 mm" in cold


def test_tighter_than_it_is_wide_is_asked_about() -> None:
    (asked,) = told("bend on edge: strap, radius 20 ±3, angle 90")
    assert "its inner edge buckles" in asked
    assert told("bend: strap, radius 20 ±3, angle 90") == []


@pytest.mark.parametrize("bar", ["round 12", "square 12"])
def test_what_has_no_edge_is_bent_by_bend(bar: str) -> None:
    (found,) = told("bend on edge: strap, radius 100, angle 60", bar=bar)
    assert "strap has no edge to be bent on" in found


# By hand: inside, 25 mm at 50 mm becomes 50/62.5 as long, and √1.25 = 1.118 as thick; outside 75/62.5 as long
# and 1/√1.2 = 0.913 as thick. That strains across a pull are equal is from the book named there.
def test_what_its_edges_do_is_told() -> None:
    assert side_changes(25, 50) == pytest.approx((0.118, 0.087), abs=5e-4)
    strap = make("flat", {"width": 25, "thickness": 5, "length": 200})
    know = [write(one) for one in operation("bend on edge").know(strap, strap)]
    assert "To 50 mm inside its inner edge thickens by 12 %, and its outer one thins by 9 %" in know[1]


def test_bend_with_on_edge_behind_it_says_what_begins_the_step() -> None:
    text = SWEPT.format(bar="25 x 5", metal="mild steel", step="bend: strap, radius 100, angle 90, on edge")
    found = [write(one.message) for one in faults_of(text)]
    assert any("begin the step with bend on edge" in one for one in found), found
