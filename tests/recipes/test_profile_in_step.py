"""A profile that a step writes out says its sizes there, as one that is drawn does."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState
from coach.recipe.reader import read_recipe
from coach.telling.words import write

SPEAR = """\
recipe: Spear blade
pieces:
  spear:
    metal: C45
    bar: 40 x 14
    zones:
      neck: 40 x 14, long 60
      blade: profile 20 x 7, then 44 x 6 at 40, then 6 x 3 at 160, long 160 ±16
usual: {{at: light orange}}
steps:
  - mark out: spear
  - cut: blade, cold
  - spread: blade, {profile}6 heats
"""
WRITTEN = "profile 20 x 7, then 44 x 6 at 40, then 6 x 3 at 160, "


@pytest.mark.parametrize(
    "profile", ["profile, ", WRITTEN, f"{WRITTEN}long free, ", f"{WRITTEN}long 160 ±16, "]
)
def test_it_is_held_to_the_sizes_of_its_stations(profile: str) -> None:
    plan = look_back(read_recipe(SPEAR.format(profile=profile), "spear.yaml"))
    planned = planned_tool(plan)
    assert [write(one.sentence) for one in planned.findings if one.zone == "blade"] == []
    assert planned.verdict is not PlanState.OFF_PLAN
    sizes = plan.stages["blade"][-1].form_after.sizes_mm()
    assert (sizes["width"], sizes["thickness"]) == pytest.approx((44, 7), rel=0.02)
