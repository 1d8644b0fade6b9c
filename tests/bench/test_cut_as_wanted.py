"""A piece that lies on its bar is cut as long as the row wants it, wherever its mark was made."""

from __future__ import annotations

import pytest

from coach.ledger.verdict import PlanState, Verdict
from tests.bench.jobs import begun

DIBBER = """
recipe: Garden dibber
pieces:
  dibber:
    metal: mild steel
    bar: square 16
    zones:
      tip: square 12 ±0.7 to 5 ±0.7, long 120 ±12, allowance 1 %
      shank: square 12 ±0.7, long 140 ±14.4, allowance 1 %
steps:
  - mark out: dibber
  - taper: tip, 3 heats
    check: width, thickness, end width, end thickness, length
  - cut: shank, 1 heat
    check: length
  - draw: shank, 3 heats
    check: side, length
"""


@pytest.mark.parametrize("beyond_mm", [0.0, 0.9])
def test_a_cut_where_it_is_wanted_is_good_beyond_its_mark_too(beyond_mm: float) -> None:
    """Marked at 39.5 and 118.8, so 79.3 mm apart where 82.8 are wanted: the bar goes on behind the mark."""
    job = begun(DIBBER)
    job.read("tip.mark", "39.5")
    job.read("shank.mark", "118.8")
    job.done()
    job.done()
    row = next(check for check in job.standing().checks if check.name == "shank.length")
    assert row.wanted is not None
    wanted_mm = row.wanted.limits.nominal
    assert wanted_mm == pytest.approx(82.8, abs=0.3)
    job.read("shank.length", f"{wanted_mm + beyond_mm:.1f}")
    told = job.standing()
    row = next(check for check in told.checks if check.name == "shank.length")
    assert row.verdict is Verdict.GOOD
    assert not told.questioned
    assert told.verdict is PlanState.ON_PLAN
