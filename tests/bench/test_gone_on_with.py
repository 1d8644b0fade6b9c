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


def test_a_bow_that_a_step_left_has_its_cure_in_figures_while_nothing_is_hard() -> None:
    job = at_step_of("cold-chisel", 5)
    job.heat()
    job.read("edge.bow", "3")
    job.done()
    assert job.standing().to_right
    (way,) = [one for one in job.ways_back() if one.name == "by-hand-edge-bow"]
    # 0.5 mm is the most that the recipe allows.
    assert write(way.changes, Shown("mm")).startswith("It is 2.5 mm over the 0.5 mm allowed: one more heat")
