"""What a change of a job leaves of the bars of the rack that it is cut from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import inf
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.off_rack import beyond_of, taken_by
from coach.bench.rack import LyingBar, RackOfShop, length_words
from coach.ledger.plan import Plan
from coach.quantities.figure import Figure, mm
from coach.quantities.words import Words, as_words, run_on, say

#: No saw parts less (judgement).
_SAME_MM = 0.1
_TOLD = "the rack now has {} of {}, where it had {}"
#: Of a bar that is cut up.
_NONE = as_words("nothing")
#: What is said where a bar is on the rack whole again, for the job goes on from one of another section.
_IF_THE_SAME = "{}; if the bar in hand is cut off it, correct it on the rack"


class LeftOnRack(NamedTuple):
    """A bar of the rack that is longer or shorter by a change of a job cut from it."""

    bar: str  # its name
    was: Figure
    now: Figure
    words: Words


def left_on_rack(
    rack: RackOfShop | None, job: str, begun: Plan, before: JobState, after: JobState
) -> tuple[LeftOnRack, ...]:
    """Each bar of the rack that a change of the job makes another length; `begun` is how the job began."""
    if rack is None or not rack.is_cut_for(job):
        return ()
    was, now = (_by_name(rack, job, begun, state) for state in (before, after))
    names = dict.fromkeys((*was, *now))
    return tuple(
        LeftOnRack(name, _length(was, name), _length(now, name), _told(was, now, name, job))
        for name in names
        if abs(_length(was, name).value - _length(now, name).value) >= _SAME_MM
    )


def left_words(left: Iterable[LeftOnRack]) -> Words:
    """All of them in one; nothing for none."""
    return run_on((one.words for one in left), "; ")


def _by_name(rack: RackOfShop, job: str, begun: Plan, state: JobState) -> Mapping[str, LyingBar]:
    taken = taken_by(begun, state)
    return {bar.name: bar for bar in rack.if_taken(job, lambda bar, way: beyond_of(taken, bar, way))}


def _length(bars: Mapping[str, LyingBar], name: str) -> Figure:
    return bars[name].length if name in bars else mm(0.0)


def _told(was: Mapping[str, LyingBar], now: Mapping[str, LyingBar], name: str, job: str) -> Words:
    before, after = (length_words(bars[name]) if name in bars else _NONE for bars in (was, now))
    told = say(_TOLD, after, name, before)
    off_mm = sum(cut.length.value for cut in now[name].cuts if cut.job == job) if name in now else inf
    return say(_IF_THE_SAME, told) if off_mm < _SAME_MM else told
