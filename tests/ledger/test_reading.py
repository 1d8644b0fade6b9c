"""A reading that cannot be right is kept out until it is taken again."""

from __future__ import annotations

import pytest

from coach.ledger.course import Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.reading import ColdReading, Reading, Surprise
from coach.ledger.stepping import step_on
from coach.ledger.workpiece import Estimate, at_stock
from tests.ledger.recipes import DRAW, planned
from tests.ledger.situations import offers, standing_at
from tests.ledger.test_ground_to_length import POLL


@pytest.mark.parametrize(("size_mm", "questioned"), [(12.9, False), (13.1, True), (7.1, False), (6.9, True)])
def test_a_reading_is_questioned_beyond_three_times_both_doubts(size_mm: float, questioned: bool) -> None:
    # 0.6 mm of what was expected and 0.8 mm of the reading are 1 mm together.
    expected = Estimate(10.0, 0.6, {})
    cold = ColdReading(size_mm, 0.48, 0.64)
    assert cold.doubt_mm == pytest.approx(0.8)
    assert Surprise(expected, cold).questioned is questioned


def doubted(zone: str, dimension: str, size_mm: float) -> list[Mark]:
    return [ReadingMark(9, Reading(zone, dimension, size_mm, "calliper"))]


@pytest.mark.parametrize(
    ("text", "step", "name", "size_mm"),
    [(DRAW, 1, "strap.width", 20.0), (POLL, 3, "poll.length", 20.0), (POLL, 3, "poll.length", 90.0)],
)
def test_a_questioned_reading_moves_nothing(text: str, step: int, name: str, size_mm: float) -> None:
    plan = planned(text)
    start = at_stock(plan)
    for done in plan.recipe.steps[: step - 1]:
        start = step_on(plan, start, done)
    in_hand = plan.recipe.steps[step - 1]
    zone, dimension = name.split(".")
    without = follow(plan, start, in_hand, [], finished=False)
    course = follow(plan, start, in_hand, doubted(zone, dimension, size_mm), finished=False)
    assert course.outcomes[0].questioned
    before, after = (forecast(plan, one, start, step) for one in (without, course))
    assert after.chance == pytest.approx(before.chance, abs=1e-9)
    spare, was = after.zones[zone].spares[0], before.zones[zone].spares[0]
    assert (spare.spare.value, spare.spare.doubt) == pytest.approx(
        (was.spare.value, was.spare.doubt), abs=1e-9
    )
    for size, old in zip(after.zones[zone].sizes, before.zones[zone].sizes, strict=True):
        assert (size.expected.value, size.expected.doubt) == pytest.approx(
            (old.expected.value, old.expected.doubt), abs=1e-9
        )


@pytest.mark.parametrize("size_mm", [3.0, 30.0])
def test_no_way_back_is_offered_for_a_reading_that_is_questioned(size_mm: float) -> None:
    situation = standing_at(planned(DRAW), doubted("strap", "thickness", size_mm))
    assert situation.course is not None
    assert situation.course.outcomes[0].questioned
    assert offers(situation) == ()
