"""What a way back that was taken asks to be done by hand, until it is done."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.ledger.workpiece import size_name
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.log.kinds.way_back import WayBackTaken
from coach.operations.measures import MARK
from coach.quantities.words import Words, say
from coach.recipe.model import Step


class ByHand(NamedTuple):
    """Work that no step of the recipe tells, and that a way back counts as done."""

    entry: int  # the number of its entry
    do: Words  # what to do
    then: Words  # what comes of it
    caution: Words  # what to take care of; empty for nothing

    @property
    def words(self) -> Words:
        """What to do and what comes of it."""
        stop = "" if self.do.template.endswith(".") else "."
        return say(f"{{}}{stop} {{}}", self.do, self.then)


def by_hand(state: JobState) -> tuple[ByHand, ...]:
    """What is still to be done by hand, in the order that it was taken.

    It is done once a size that it changes is read after it, or the step is finished in which it was taken.
    """
    step = state.step.number if state.step is not None else 0
    return tuple(
        ByHand(entry.number, way.title, way.changes, way.caution)
        for entry in state.counted.values()
        if isinstance(way := entry.body, WayBackTaken) and way.step == step
        if not _is_done(state, entry, way)
    )


def to_measure(state: JobState) -> tuple[str, ...]:
    """The sizes that a way back has changed and that nobody has read since, as commands take them.

    Whatever it was to bring them to, they are only reckoned until they are measured.
    """
    if state.step is None or state.now is None:
        return ()
    drawing = state.plan.recipe.drawing
    found: dict[str, None] = {}
    for entry in state.counted.values():
        way = entry.body
        if (
            isinstance(way, WayBackTaken)
            and way.step == state.step.number
            and not _is_done(state, entry, way)
        ):
            for zone, dimension in sorted(way.amendment.changed_sizes(state.now)):
                if dimension in drawing[zone].limits:
                    found[size_name(zone, dimension)] = None
    return tuple(found)


def worked_back(state: JobState, step: Step) -> frozenset[str]:
    """The zones whose section a way back has worked to another size in a step: upset, drawn again."""
    ways = (one.body for one in state.counted.values() if isinstance(one.body, WayBackTaken))
    changes = [way.amendment for way in ways if way.step == step.number]
    cut: frozenset[str] = frozenset().union(*(one.cut_to_size for one in changes))
    rows = (row for one in changes for row in one.regained if row.dimension != MARK and not row.under_way)
    return frozenset(row.zone for row in rows) - cut


def _is_done(state: JobState, entry: Entry, way: WayBackTaken) -> bool:
    """Whether a way back asks for no hand, or what it changes was read since."""
    if state.now is None:
        return True
    changed = way.amendment.changed_sizes(state.now)
    return not changed or any((read.zone, read.dimension) in changed for read in _read_after(state, entry))


def _read_after(state: JobState, entry: Entry) -> Iterator[Reading]:
    for one in state.counted.values():
        if one.number > entry.number and isinstance(one.body, Reading):
            yield one.body
