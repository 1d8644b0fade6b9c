"""A zone that is gathered is long while its section is still small: that is more to go, and no ruin."""

from __future__ import annotations

from itertools import permutations

import pytest

from coach.ledger.verdict import PlanState, Verdict
from tests.bench.jobs import begun

PIN = """
recipe: Headed pin
pieces:
  pin:
    metal: mild steel
    bar: round 16, long 400
    zones:
      head: round 22 ±0.9, long 24 ±2.2
      shank: round 16 ±0.5, long 80 ±4
steps:
  - mark out: pin
  - upset: head, 3 heats
    check: diameter, length
  - cut: shank, cold, kerf 2
    check: length
"""

#: By hand: the head is 47.5 mm of bar, and 47.5 · (16 / 18)² = 37.5, 47.5 · (16 / 20)² = 30.4 mm; scale takes
#: some of it.
HALF_WAY = [(1, "18", "37"), (2, "20", "29.8")]


@pytest.mark.parametrize(("heats", "diameter", "length"), HALF_WAY)
@pytest.mark.parametrize("order", [*permutations(("diameter", "length")), ("length",)])
def test_half_way_in_an_upset_a_true_length_is_on_its_way(
    heats: int, diameter: str, length: str, order: tuple[str, ...]
) -> None:
    job = begun(PIN)
    job.done()
    for _ in range(heats):
        job.heat()
    for name in order:
        job.read(f"head.{name}", {"diameter": diameter, "length": length}[name])
    told = job.standing()
    row = next(check for check in told.checks if check.name == "head.length")
    assert row.verdict is Verdict.MORE_TO_GO
    assert told.verdict is PlanState.ON_PLAN
    finished = next(size for size in told.sizes if size.name == "head.length")
    assert finished.expected.value == pytest.approx(24.0, abs=1.0)
    ways = [way.name for way in job.ways_back()]
    assert not [name for name in ways if "leave" in name or "cut" in name], ways


def test_once_its_section_is_there_a_length_beyond_its_limit_is_out() -> None:
    job = begun(PIN)
    job.done()
    for _ in range(3):
        job.heat()
    job.read("head.diameter", "22")
    job.read("head.length", "28.5", insist=True)
    told = job.standing()
    row = next(check for check in told.checks if check.name == "head.length")
    assert row.verdict is not Verdict.GOOD
    assert told.verdict is PlanState.OFF_PLAN
