"""A piece was spoiled, and its metal taken once more: off another bar of the rack."""

from __future__ import annotations

from coach.log.kinds.rack_cut import RackCut
from coach.log.limits import whole

_MOST_ENTRIES = 10_000_000


class RackCutAnew(RackCut):
    """What a way back of a job takes off a bar; it counts as long as that does."""

    CALLED = "a cut off the rack for a piece made anew"

    way: int = whole(1, _MOST_ENTRIES)  # the number of the job's entry
