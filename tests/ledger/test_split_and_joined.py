"""A zone that is split, and what a recipe asks of it then: planned, or refused at its place."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.drawing.job import finished_views, stock_views
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError
from coach.quantities.refusal import Refusal
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe

SPLIT = """\
recipe: Split and joined
pieces:
  body:
    metal: mild steel
    bar: 20 x 6, long 700
    zones:
      end: 20 x 6, splits into left and right
      left: 10 x 6, long 60
      right: 10 x 6, long 60
      plate: 20 x 6, round hole 6.5 ±0.5, long 50 ±3, takes up wide then long
{pieces}
usual: {{at: light yellow, kerf: 1.5}}
steps:
  - mark out: body
  - cut: plate, cold
  - split: end, 2 heats
  - punch: plate, 1 heat, slug 2
{steps}
"""
PIN = """\
  pin:
    metal: mild steel
    bar: round 6
    size: rivet, heads one, diameter 6 ±0.3, grip 6 ±0.5, head diameter 10 ±1.2, head height 3 ±1
"""
STEEL = """\
  bit:
    metal: "1084"
    bar: 20 x 4
    size: 20 x 4, long 30
"""
BAND = """\
  band:
    metal: mild steel
    bar: 8 x 4
    size: 8 x 4, long 80
"""
RIVETED = "rivet: pin, heads one, grip 6 ±0.5, head diameter 10 ±1.2, 1 heat"


@pytest.mark.parametrize(
    ("pieces", "step"),
    [
        (PIN, RIVETED),
        (PIN, RIVETED.replace("pin,", "pin with end,")),
        (PIN, RIVETED.replace("pin,", "pin with left and plate,")),
        (PIN, RIVETED.replace("pin,", "pin with body,")),
        (PIN, "rivet: end, heads one, grip 6 ±0.5, head diameter 10 ±1.2, 1 heat"),
        (BAND, "collar: band with end, 1 heat"),
        (BAND, "collar: band with left and right, 1 heat"),
        (BAND, "collar: end, 1 heat"),
        ("", "haft: end, haft long 150 ±10"),
        ("", "haft: left, haft long 150 ±10"),
        (STEEL, "weld: end with bit, 2 heats, at white"),
        (STEEL, "weld: left with bit, 2 heats, at white"),
        (STEEL, "weld: bit with end, 2 heats, at white"),
        ("", "weld shut: end, 2 heats, at white"),
        ("", "reweld: end, 2 heats, at white"),
        ("", "fit: end, gap at most 0.5"),
        ("", "scarf: end, 1 heat"),
        ("", "fold: end, 1 heat"),
        ("", "cut: end, cold"),
        ("", "upset: end, 1 heat"),
    ],
)
def test_a_zone_that_is_split_is_planned_with_a_join_or_refused_with_a_place(pieces: str, step: str) -> None:
    text = SPLIT.format(pieces=pieces.rstrip("\n"), steps=f"  - {step}")
    plan: Plan | Refusal
    try:
        plan = look_back(read_recipe(text, "split.yaml"))
    except (RecipeFaults, LedgerError) as error:
        plan = error
    if isinstance(plan, RecipeFaults):
        assert all(one.line and one.column for one in plan.faults)
    elif isinstance(plan, LedgerError):
        assert plan.zone or plan.step
    elif isinstance(plan, Plan):
        planned = planned_tool(plan)
        assert [one.step.number for one in planned.steps] == [one.number for one in plan.recipe.steps]
        for piece in plan.recipe.finished:
            assert finished_views(plan, piece)
            assert stock_views(plan, piece)


def test_a_grip_shorter_than_what_is_drawn_of_what_it_holds_is_told_though_the_rest_is_not_drawn() -> None:
    # The hole is 6 mm deep, and the band has none: whatever it is thick, a grip of 1.3 mm is too short.
    pin = PIN.replace("heads one", "heads two").replace("grip 6 ±0.5", "grip 1.3 ±0.2")
    steps = "  - cut: pin, cold\n  - join: plate and band by pin, 1 heat"
    text = SPLIT.format(pieces=pin + BAND, steps=steps)
    told = [str(one.sentence) for one in planned_tool(look_back(read_recipe(text, "x.yaml"))).findings]
    assert any("its grip is 1.3" in one and "thick already" in one for one in told), told
