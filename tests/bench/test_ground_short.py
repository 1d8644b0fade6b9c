"""A grinding that stops inside its limits and short of what the fire made soft is told in time."""

from __future__ import annotations

from coach.ledger.verdict import PlanState
from tests.bench.test_settled_sizes import at_step
from tests.told import why


def test_an_edge_ground_less_than_its_skin_is_told_so_while_the_stone_still_turns() -> None:
    """The adze's edge: 2.89 mm before the stone, 2.2 of 2 ±0.4 after it, and the skin 0.76 mm deep."""
    job = at_step("carpenters-adze", 32)
    job.read("bit.end_thickness", "2.0")
    assert job.standing().verdict is PlanState.ON_PLAN  # 0.9 mm came off
    job.strike()
    job.read("bit.end_thickness", "2.2")
    told = job.standing()
    assert told.verdict is PlanState.TIGHT
    assert "only 0.7 mm is ground off the end thickness: take 0.2 mm more off" in why(told)


def test_what_has_more_to_go_is_ground_on_and_not_told_short() -> None:
    job = at_step("carpenters-adze", 32)
    job.read("bit.end_thickness", "2.6")
    assert "stays soft" not in why(job.standing())
