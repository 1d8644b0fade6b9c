"""A size beside its limits that was read with a gauge which, by this shop's own jobs, reads too much."""

from __future__ import annotations

from math import hypot
from typing import Final

from coach.bench.begun_with import figures_of_shop
from coach.bench.job_state import JobState
from coach.ledger.verdict import Verdict
from coach.log.kinds.reading import Reading
from coach.quantities import COVERAGE, mm
from coach.quantities.words import NOTHING, Words, say

_READS_OFF: Final = (
    "by this shop's own jobs the {} reads {} too {}: what was read is {:±} by that. It is judged as it was "
    "read, so measure it by another gauge, or set this one right"
)


def gauge_reads_off(state: JobState, read: Reading, entry: int) -> Words:
    """What is said of a reading that is not good, where the gauge is known to be off and that might be why.

    Args:
        state: of the job, with the reading in it.
        read: what was read.
        entry: its entry's number.
    """
    known = figures_of_shop(state.counted.values()).get(read.gauge)
    course = state.course()
    if known is None or course is None or abs(known.value) <= COVERAGE * known.doubt:
        return NOTHING
    found = next((one for one in course.outcomes if one.mark.entry == entry), None)
    if found is None or found.judged is None or found.limits is None or found.surprise is None:
        return NOTHING
    cold = found.surprise.cold
    off_mm = max(found.limits.low - cold.size_mm, cold.size_mm - found.limits.high)
    nearer = cold.size_mm > found.limits.high - cold.doubt_mm * COVERAGE
    if found.judged.verdict is Verdict.GOOD or (known.value > 0.0) is not nearer:
        return NOTHING
    if off_mm > abs(known.value) + COVERAGE * cold.doubt_mm:
        return NOTHING  # it is outside whatever its gauge reads
    by_that = mm(cold.size_mm - known.value, hypot(cold.chance_mm, known.doubt))
    much = "much" if known.value > 0.0 else "little"
    return say(_READS_OFF, read.gauge, mm(abs(known.value)), much, by_that)
