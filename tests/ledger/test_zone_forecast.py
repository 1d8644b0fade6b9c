"""The chance of an end that is behind the smith: it is the size itself that counts."""

from __future__ import annotations

from math import erf, sqrt

import pytest

from coach.ledger.course import ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.verdict import Why
from coach.ledger.workpiece import at_stock
from coach.quantities import mm
from tests.ledger.recipes import planned
from tests.ledger.test_ground_to_length import POLL


def test_an_end_that_is_ground_has_its_chance_by_its_length() -> None:
    plan = planned(POLL)
    start = at_stock(plan)
    for done in plan.recipe.steps[:2]:
        start = step_on(plan, start, done)
    marks = [ReadingMark(9, Reading("poll", "length", 47.1, "rule"), insisted=True)]
    after = follow(plan, start, plan.recipe.steps[2], marks, finished=True).now
    length = after.size("poll", "length")
    zone = forecast(plan, None, after, 4).zones["poll"]
    # Of a Gaussian size against the least of 50 ±3 mm (JCGM 106:2012, 7).
    chance = 0.5 * (1.0 + erf((length.value - 47.0) / length.doubt / sqrt(2.0)))
    assert 0.05 < chance < 0.95
    assert zone.metal_chance == pytest.approx(chance)
    assert zone.spares[0].spare.value == pytest.approx(length.value - 47.0)
    assert zone.spares[0].reason(Why.SHORT, plan.recipe.drawing["poll"].limits["length"]).bound == mm(47.0)
