"""A soak that was typed longer than the piece lay in the fire, by the clock at the bench."""

from __future__ import annotations

from typing import Final

from coach.bench.fire_clock import seconds_between
from coach.bench.job_state import JobState
from coach.ledger.course import HeatMark
from coach.log.kinds.reading import Reading
from coach.quantities.figure import seconds
from coach.quantities.words import NOTHING, Words, say

_SOAK: Final = "soak"
#: A soak is told in whole minutes, and the key of the fire is pressed some seconds late (judgement).
_NEAR_S: Final = 60.0
_LONGER: Final = (
    "by the clock it lay {} in the fire, and no soak is longer than that: strike it out if it was a slip"
)


def soaked_by_clock(state: JobState, read: Reading, at: str) -> Words:
    """What is said of a soak of the step in hand; nothing where the clock was not used, or bears it out.

    Args:
        state: of the job, with the reading in it.
        read: what was read.
        at: the moment of its entry, ISO 8601 UTC.
    """
    if read.dimension != _SOAK or read.taken_at or state.step is None or read.step != state.step.number:
        return NOTHING
    heats_s = [one.lay_s for one in state.marks if isinstance(one, HeatMark)]
    if state.in_at:
        heats_s.append(seconds_between(state.in_at, at))
    lay_s = sum(one for one in heats_s if one is not None)
    if not heats_s or None in heats_s or read.size <= lay_s + _NEAR_S:
        return NOTHING
    return say(_LONGER, seconds(lay_s))
