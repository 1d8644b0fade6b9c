"""Steel that is welded in and was never measured decides nothing as long as it may well be inside."""

from __future__ import annotations

from coach.ledger.verdict import PlanState
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

#: The bit of the hedging hatchet as it was spread over its steel, which went in at step 19.
SPREAD = {"end_thickness": "4.9", "end_width": "77", "width": "56.2", "thickness": "9", "length": "63"}


def test_more_metal_in_a_bit_says_that_it_gets_long_and_not_that_its_steel_is_thick() -> None:
    """28,700 mm³ by its five sizes, where 27,950 are drawn: some 70 mm at the end, of at most 68.

    Its edge is reckoned some 2.1 mm thick of at most 2.4: it surely is beyond nothing.
    """
    job = at_step_of("hedging-hatchet", 22)
    for name, size in SPREAD.items():
        job.read(f"bit.{name}", size)
    told = job.standing()
    assert told.verdict is PlanState.TIGHT
    assert "Bit length comes out at 70" in stands_text(told, Shown())
    assert "dge" not in stands_text(told, Shown())
    ways = {way.name: way for way in job.ways_back()}
    assert ways["too-much-metal-cut-bit-length"].verdict is PlanState.ON_PLAN
