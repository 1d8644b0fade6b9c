"""A length that was read, surely outside, once it is forged: off plan until it is cut.

By hand: the sickle's blade drawn 300 ±40 is 340 at most; read 372 it is 32 over, and no gauge doubts that.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.drafting.from_bar import from_bars
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from tests.bench.jobs import begun


@pytest.fixture(scope="module")
def sickle() -> Session:
    """Of a bar with too much metal in it; the edge is forged, and what it comes to is read."""
    text = (bundled_recipes() / "garden-sickle.yaml").read_text(encoding="utf-8")
    job = begun(from_bars(text, "garden-sickle.yaml", ["30 x 6, long 420, 1060"]).text)
    job.change("blade.length = 300 ±40")
    while (step := job.standing().step) is not None and step.title != "Forge the edge along its inside":
        job.done()
    for _ in range(5):
        job.heat()
    job.read("blade.thickness", "4.1")
    job.read("blade.width", "24")
    job.read("blade.length", "372", insist=True)
    return job


def test_it_is_off_plan_for_its_length_from_then_on_till_it_is_hardened(sickle: Session) -> None:
    for _ in range(5):
        told = sickle.standing()
        assert told.verdict is PlanState.OFF_PLAN
        assert told.chance < 0.05
        assert told.will_pass is not None
        assert told.will_pass.chance <= told.chance + 0.01
        if sickle._state.step is not None and "Harden" not in sickle._state.step.title:
            sickle.done()


def test_before_it_is_read_metal_to_spare_makes_it_tight_and_no_worse() -> None:
    text = (bundled_recipes() / "garden-sickle.yaml").read_text(encoding="utf-8")
    job = begun(from_bars(text, "garden-sickle.yaml", ["30 x 6, long 420, 1060"]).text)
    job.change("blade.length = 300 ±40")
    told = job.standing()
    assert told.verdict is PlanState.TIGHT
    assert 0.85 <= told.chance < 0.95  # 15 points at most (judgement)
