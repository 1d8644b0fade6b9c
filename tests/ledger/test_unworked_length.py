"""What no step moves is as long as its marks say, whatever its bar's section: no metal is asked of it."""

from __future__ import annotations

from math import sqrt

import pytest

from coach.bench.margins import allowances_for
from coach.bench.outlook import outlook
from coach.ledger.forecast import forecast
from coach.ledger.verdict import PlanState
from coach.ledger.workpiece import at_stock
from tests.ledger.recipes import planned

ROD = """
recipe: Curtain rod
pieces:
  rod:
    metal: mild steel
    bar: round 16, long 3000
    zones:
      left: round 16 to 6, long 60 ±10
      middle: round 16, long 1500 ±8
      right: round 16 to 6, long 60 ±10
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: rod
  - taper: left, 3 heats
  - cut: right, cold
  - taper: right, 3 heats
"""

GROUND = """
recipe: Ground bar
pieces:
  bar:
    metal: mild steel
    bar: 40 x 12, long 600
    zones:
      head: 40 x 5, long 60 ±5
      handle: 40 x 12, long 100 ±8
steps:
  - mark out: bar
  - grind: head, thick 5
"""


def test_a_length_between_two_marks_is_doubted_by_the_marks_alone() -> None:
    plan = planned(ROD)
    middle = forecast(plan, None, at_stock(plan), 1).zones["middle"]
    # It ends at two marks, each off by chance of its own (JCGM 100:2008, 5.1.2), and the heats beside it blur
    # them by no tenth of a millimetre; 1500 is over the least, 1492. One per cent of a bar would be 15 mm.
    spare, marks_mm = middle.spares[0].spare, sqrt(2.0) * plan.recipe.mark_doubt_mm
    assert spare.value == pytest.approx(8.0)
    assert spare.doubt is not None
    assert marks_mm <= spare.doubt < marks_mm + 0.1
    assert middle.metal_chance > 0.99


def test_nobody_is_told_to_mark_an_unworked_length_longer() -> None:
    plan = planned(ROD)
    found = outlook(plan)
    assert found.verdict is PlanState.ON_PLAN
    assert [zone.extra for piece in found.pieces for zone in piece.zones if zone.zone == "middle"] == [None]
    assert "middle" not in allowances_for(plan.recipe, 0.95)


def test_a_margin_too_fine_for_the_marks_is_asked_in_millimetres_of_the_bar() -> None:
    plan = planned(ROD.replace("1500 ±8", "1500 ±1"))
    middle = forecast(plan, None, at_stock(plan), 1).zones["middle"]
    doubt_mm = middle.spares[0].spare.doubt
    assert doubt_mm is not None
    # π/4 · 16² = 201.06 mm² of bar for each mm that is lacking of 1.645 standard uncertainties, 95 % on
    # one side of a Gaussian.
    assert middle.extra_mm3 == pytest.approx((1.645 * doubt_mm - 1.0) * 201.06, rel=1e-3)


def test_grinding_a_face_leaves_the_length_as_it_is_marked() -> None:
    plan = planned(GROUND)
    head = forecast(plan, None, at_stock(plan), 1).zones["head"]
    assert head.spares[0].spare.doubt == pytest.approx(plan.recipe.mark_doubt_mm)  # the bar's end has no mark
    assert head.metal_chance > 0.99
