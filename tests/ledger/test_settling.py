"""Where sizes lie that were worked to or kept and not measured, by hand."""

from __future__ import annotations

from math import sqrt

import pytest

from coach.ledger.hand import scatter_mm
from coach.ledger.stepping import step_on
from coach.ledger.workpiece import at_stock
from coach.quantities import Limits
from tests.ledger.recipes import LAID, planned

#: The width is not asked for: it stays as the bar has it.
KEPT = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  bar: {form: flat, width: 40 ±2, thickness: 8 ±0.5, length: 240 ±12, take up: length}
steps:
  - {do: draw, zone: bar, to: {thickness: 8 ±0.5}, heats: 3}
"""

#: A square bar is made flat: it has no side any more.
FLATTENED = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 20}}
drawing:
  bar: {form: flat, width: 25 ±1, thickness: 10 ±0.5, length: 160 ±12, take up: length}
steps:
  - {do: draw, zone: bar, form: flat, to: drawing, heats: 3}
"""


@pytest.mark.parametrize(
    ("limits", "size_mm", "doubt_mm"),
    [
        # Common practice, no source: 2 % of the size and not below 0.3 mm; or a quarter of the limits' width.
        (None, 5.0, 0.3),
        (None, 40.0, 0.8),
        (Limits(40.0, 39.0, 41.0, True), 40.0, 0.5),
        (Limits(40.0, 39.95, 40.05, True), 40.0, 0.05),
    ],
)
def test_hand_work_scatters_by_its_limits_or_by_its_size(
    limits: Limits | None, size_mm: float, doubt_mm: float
) -> None:
    assert scatter_mm(limits, size_mm) == pytest.approx(doubt_mm)


def test_a_size_that_is_only_kept_is_known_less_well_after_the_hammer() -> None:
    plan = planned(KEPT)
    stock = at_stock(plan)
    assert stock.belief.doubt("bar.width") == pytest.approx(0.2)  # 0.5 % of 40 mm
    drawn = step_on(plan, stock, plan.recipe.steps[0])
    # Three heats take 0.03 mm each off both faces, to 40 %; and the hand scatters by 2 %.
    assert drawn.belief.mean("bar.width") == pytest.approx(40.0 - 3 * 2 * 0.03)
    assert drawn.belief.doubt("bar.width") == pytest.approx(sqrt(0.2**2 + 0.8**2 + (0.4 * 0.18) ** 2))


def test_sizes_that_a_zone_has_no_more_are_forgotten() -> None:
    flat = planned(FLATTENED)
    after = step_on(flat, at_stock(flat), flat.recipe.steps[0])
    assert {"bar.width", "bar.thickness"} <= set(after.belief.names)
    assert "bar.side" not in after.belief
    laid = planned(LAID)
    now = at_stock(laid)
    for step in laid.recipe.steps[:4]:
        now = step_on(laid, now, step)
    assert [name for name in now.belief.names if name.startswith("bit")] == ["bit volume"]
