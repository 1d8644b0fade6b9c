"""A form taken off a drawing, while it is being made: its length does not blame the metal."""

from __future__ import annotations

from coach.ledger.verdict import PlanState
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.test_too_long_in_the_middle import job


def test_a_leaf_that_is_narrow_still_is_no_proof_that_metal_is_missing() -> None:
    # It was told to be 1 ±8 mm short beside a spare of 11.4 mm: nobody has measured how thick it is there.
    session = job("scrolled-bracket", 2, "leaf.width=24.8", "leaf.length=82.4")
    told = session.standing()
    assert told.verdict is not PlanState.OFF_PLAN
    assert "short" not in stands_text(told, Shown())
    spare = next(one for one in told.spares if one.zone == "leaf")
    assert spare.spare.value > 10.0


def test_a_leaf_that_is_wide_and_short_lacks_its_metal() -> None:
    session = job("scrolled-bracket", 2, "leaf.width=31", "leaf.thickness=6", "leaf.length=60")
    assert session.standing().verdict is PlanState.OFF_PLAN
