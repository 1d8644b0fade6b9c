"""A size that was typed by another name than it is told by, as the width of a round hole."""

from __future__ import annotations

from coach.bench.job_state import JobState
from coach.forms import said
from coach.log.kinds.reading import Reading
from coach.quantities.words import NOTHING, Words, say


def one_size(state: JobState, name: str, read: Reading) -> Words:
    """What is said where a size was given for another that can never differ from it; nothing else.

    Args:
        state: of the job, with the reading in it.
        name: of the size, as it was given.
        read: what was read.
    """
    there = state.now.zones.get(read.zone) if state.now is not None else None
    typed = name.lower().replace(".", " ").replace("_", " ").strip()
    dimensions = there.shape.dimensions if there is not None and there.has_form else ()
    spoken = max((one for one in dimensions if typed.endswith(said(one))), key=len, default="")
    if there is None or not spoken or there.shape.one_with(spoken) != read.dimension:
        return NOTHING
    return say("round as it is, its {} and its {} are one size", said(spoken), said(read.dimension))
