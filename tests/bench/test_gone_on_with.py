"""A size that the step in hand makes is put right in that step, and no step behind is opened for it."""

from __future__ import annotations

from coach.ledger.verdict import PlanState
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of


def test_a_scarf_that_is_too_long_is_worked_on_in_its_own_step() -> None:
    job = at_step_of("folded-froe", 2)
    job.heat()
    job.read("eye.scarf length", "21")
    assert job.standing().verdict is PlanState.TIGHT
    (way,) = [one for one in job.ways_back() if one.name == "by-hand-eye-scarf-length"]
    assert "another heat in it" in write(way.changes, Shown("mm"))
    assert "16 mm" in write(way.changes, Shown("mm"))
    job.take(way.name)
    job.heat()
    job.read("eye.scarf length", "17")
    assert job.standing().verdict is PlanState.ON_PLAN
    assert not job.standing().to_right
