"""A bar that was split off its middle: what one tine has too little the other one has too much."""

from __future__ import annotations

from typing import Final

from coach.bench.job_state import JobState
from coach.ledger.verdict import Verdict
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.operations import Does
from coach.quantities.figure import mm
from coach.quantities.words import NOTHING, Words, say

_TINE: Final = "tine"
_OFF_THE_MIDDLE: Final = (
    "both tines are one bar: beside this one the other has about {}, and the split stands {} off the middle. "
    "No heat at the chisel mends that: more is drawn out of the wider one"
)


def off_middle(state: JobState, read: Reading, entry: Entry) -> Words:
    """How wide the other tine is then, and how far off the split stands; nothing where it is as wanted."""
    if read.dimension != _TINE or not 0 < read.step <= len(state.plan.recipe.steps):
        return NOTHING
    if not state.plan.recipe.steps[read.step - 1].does(Does.PARTS):
        return NOTHING
    outcomes = (one for course in state.courses() for one in course.outcomes)
    found = next((one for one in outcomes if one.mark.entry == entry.number), None)
    if found is None or found.limits is None or found.surprise is None or found.verdict is not Verdict.OUT:
        return NOTHING
    tine_mm, half_mm = found.surprise.cold.size_mm, found.limits.nominal
    other_mm = 2.0 * half_mm - tine_mm
    return say(_OFF_THE_MIDDLE, mm(other_mm), mm(abs(tine_mm - half_mm))) if other_mm > 0.0 else NOTHING
