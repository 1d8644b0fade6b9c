"""What can be done hangs on what was read by degrees: no way is gone a tenth of a millimetre further."""

from __future__ import annotations

import pytest

from coach.ledger.remedies import Stands, is_better
from coach.ledger.verdict import PlanState
from coach.quantities import as_words
from tests.bench.test_settled_sizes import at_step

#: The hammer's poll is cut to 27 mm, 23.6 at the least; from 24.6 mm down the job is not on plan.
_CUT_AT = ("24.8", "24.5", "24.4", "24.3", "24.1", "24", "23.9", "23.5")


@pytest.mark.parametrize("length", _CUT_AT)
def test_a_cut_poll_that_is_tight_has_a_way_back_however_near_it_is_to_enough(length: str) -> None:
    job = at_step("cross-peen-hammer", 7)
    job.read("poll.length", length, insist=True)
    standing = job.standing()
    if standing.verdict is PlanState.ON_PLAN:
        assert float(length) > 24.5
        return
    ways = [way for way in job.ways_back() if not way.again]
    assert "let-it-give-poll-length" in {way.name for way in ways}
    assert ways[0].verdict is PlanState.ON_PLAN, "the first of them brings it there"
    for way in ways:
        assert way.verdict is not standing.verdict or way.chance > standing.chance + 0.005


def stands(chance: float, verdict: PlanState, *wrong: str) -> Stands:
    return Stands(chance, verdict, as_words("the metal"), frozenset(wrong))


def test_a_way_that_betters_nothing_is_none() -> None:
    now = stands(0.94, PlanState.TIGHT, "poll")
    assert not is_better(stands(0.942, PlanState.TIGHT), now)
    assert is_better(stands(0.951, PlanState.ON_PLAN), now)
    assert is_better(stands(0.946, PlanState.TIGHT), now)


def test_of_two_zones_that_are_wrong_one_may_be_put_right_alone() -> None:
    now = stands(0.02, PlanState.OFF_PLAN, "poll", "peen")
    assert is_better(stands(0.02, PlanState.OFF_PLAN, "peen"), now)
    assert not is_better(stands(0.005, PlanState.OFF_PLAN, "peen"), now)
