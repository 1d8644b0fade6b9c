"""About how many heats a size still needs."""

from __future__ import annotations

import pytest

from coach.ledger.course import HeatMark, Mark, ReadingMark, heats_to_go
from coach.ledger.following import follow
from coach.ledger.reading import Reading
from coach.ledger.workpiece import at_stock
from tests.ledger.recipes import DRAW, planned


@pytest.mark.parametrize(
    ("thickness_mm", "heats"),
    [
        # From 12 to 8 mm in three heats: three times the share of the 4 mm that is left, less a quarter heat.
        (11.5, 3),  # 2.625 - 0.25
        (11.0, 2),  # 2.25 - 0.25
        (10.0, 2),  # 1.5 - 0.25
        (9.0, 1),  # 0.75 - 0.25
    ],
)
def test_the_planned_heats_are_shared_out_by_the_way_that_is_left(thickness_mm: float, heats: int) -> None:
    plan = planned(DRAW)
    marks: list[Mark] = [HeatMark(1), ReadingMark(2, Reading("strap", "thickness", thickness_mm, "calliper"))]
    course = follow(plan, at_stock(plan), plan.recipe.steps[0], marks, finished=False)
    assert heats_to_go(course, course.outcomes[0]) == heats
