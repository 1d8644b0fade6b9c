"""An upset that is to be done cold is told that once, not as one of too few heats besides."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, weigh
from coach.recipe.reader import read_recipe

KNOB = """\
recipe: Knob
pieces:
  knob:
    metal: mild steel
    bar: round 12
    zones:
      head: round 20 ±1, long 20 ±2
      pin: round 12 ±1, long 60 ±4
usual: {{at: light yellow, kerf: 2}}
steps:
  - mark out: knob
  - upset: head, {heats}
  - cut: pin, cold
"""


@pytest.mark.parametrize(("heats", "told"), [("cold", Cannot.GIVE_COLD), ("1 heat", Cannot.DRIVE_UP)])
def test_an_upset_that_cannot_be_is_told_by_one_sentence(heats: str, told: Cannot) -> None:
    plan = look_back(read_recipe(KNOB.format(heats=heats), "job.yaml"))
    found = [
        one for one in weigh(plan) if one.zone == "head" or plan.recipe.steps[one.step - 1].zones == ("head",)
    ]
    assert [one.what for one in found] == [told]
    assert "Plan 2 heats or more" in str(found[0].sentence) or told is Cannot.GIVE_COLD
