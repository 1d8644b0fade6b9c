"""Where a plan's doubt comes from, held against doubts combined by hand."""

from __future__ import annotations

from math import hypot
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.planned import Planned, planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.quantities.figure import Kind, Span
from coach.recipe.reader import read_recipe_file
from tests.bench.jobs import HAMMER
from tests.ledger.recipes import DRAW, LAID, NEIGHBOURS, planned

SHELF = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))


def told(plan: Planned) -> list[float]:
    """The doubt of the size that decides, as the bar is marked out and after each step that changes it."""
    assert plan.decides is not None
    marked = plan.decides.doubt_marked
    before = [] if marked is None else [marked.value]
    return before + [step.doubt.value for step in plan.steps if step.doubt is not None]


def test_a_marked_bar_is_in_doubt_by_its_mark_and_by_its_section() -> None:
    # The strap's 160 mm of bar, 40 × 12, come to 240 mm of 40 × 8: 1 mm of a mark is 1.5 mm of strap. Each
    # side of the bar is taken as known to a share of itself, and the strap's length follows both.
    plan = planned(DRAW + "scale: none\n")
    found = planned_tool(plan)
    share = plan.recipe.pieces["strap"].stock.doubt_share
    assert found.decides is not None
    assert found.decides.name == "strap.length"
    assert found.decides.doubt_marked is not None
    by_hand = hypot(1.5 * plan.recipe.mark_doubt_mm, 240.0 * share, 240.0 * share)
    assert found.decides.doubt_marked.value == pytest.approx(by_hand, rel=1e-6)


def test_a_heat_adds_the_doubt_of_the_scale_it_takes() -> None:
    # Three heats at 0.03 mm off each face, 40 % in doubt: the metal lost is told in lengths of 40 × 8.
    plan = planned(DRAW)
    found = planned_tool(plan)
    lost = next(one.volume.value for one in found.steps[0].taken if one.cause == "scale")
    marked, drawn = told(found)
    assert drawn == pytest.approx(hypot(marked, 0.4 * lost / (40.0 * 8.0)), rel=0.01)


@pytest.mark.parametrize("plan", [planned(one) for one in (DRAW, LAID, NEIGHBOURS, HAMMER)])
def test_the_doubt_comes_to_what_the_spare_is_told_with(plan: Plan) -> None:
    check(planned_tool(plan))


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_the_doubt_of_a_bundled_recipe_comes_to_what_its_spare_is_told_with(path: Path) -> None:
    check(planned_tool(look_back(read_recipe_file(path))))


def check(plan: Planned) -> None:
    assert plan.decides is not None
    (spare,) = [one for one in plan.spares if f"{one.zone}.{one.dimension}" == plan.decides.name]
    assert plan.decides.doubt.value == pytest.approx(spare.spare.doubt)
    assert told(plan)[-1] == pytest.approx(spare.spare.doubt)


#: One zone alone, so that it decides whatever the doubts are.
THREE_STEPS = """
title: Strap in three steps
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 6 ±0.5, length: 240 ±12, take up: length}
steps:
  - {do: draw, zone: strap, to: {thickness: 10 ±0.5, width: 40 ±1}, heats: 2}
  - {do: draw, zone: strap, to: {thickness: 8 ±0.5, width: 40 ±1}, heats: 3}
  - {do: draw, zone: strap, to: drawing, heats: 1}
"""


def doubts(mark: float, scale: int) -> list[float]:
    """The doubts of that strap, by how unsure a mark and the scale of a heat are."""
    fire = f"scale: {{forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm, doubt: {scale} %}}"
    return told(planned_tool(planned(f"{THREE_STEPS}marks: {mark:.2f} mm\n{fire}\n")))


@settings(max_examples=10, deadline=None)
@given(
    marks=st.tuples(st.floats(0.1, 3.0), st.floats(0.1, 3.0)).map(sorted),
    scales=st.tuples(st.integers(1, 80), st.integers(1, 80)).map(sorted),
)
def test_what_is_less_sure_at_first_is_no_surer_after_any_step(marks: list[float], scales: list[int]) -> None:
    sure, unsure = (doubts(mark, scale) for mark, scale in zip(marks, scales, strict=True))
    assert all(less <= more + 1e-9 for less, more in zip(sure, unsure, strict=True))


def test_the_time_of_a_step_is_told_for_its_forging_and_welding_heats_alone() -> None:
    # Six to twelve heats an hour (common practice, no source): five to ten minutes each.
    for one in planned_tool(planned(HAMMER)).steps:
        works = one.step.heats_planned and one.step.heat_kind in ("forging", "welding")
        heats = one.step.heats_planned
        assert one.at_the_fire == (Span(300.0 * heats, 600.0 * heats, Kind.TIME) if works else None)
