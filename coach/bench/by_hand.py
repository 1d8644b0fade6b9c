"""What a way back that was taken asks to be done by hand, until it is done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from coach.bench.job_state import JobState
from coach.ledger.plan import PlannedPiece
from coach.ledger.working import reshapes
from coach.ledger.workpiece import size_name
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.reading import Reading
from coach.log.kinds.way_back import WayBackTaken
from coach.operations.measures import MARK
from coach.quantities.figure import mm
from coach.quantities.words import NOTHING, Words, run_on, say
from coach.recipe.model import Step

#: A mark that lies nearer than this to one that was made is that one, mm (judgement).
_A_MARK_MOVES_MM: Final = 0.5


class ByHand(NamedTuple):
    """Work that no step of the recipe tells, and that a way back counts as done."""

    entry: int  # the number of its entry
    do: Words  # what to do
    then: Words  # what comes of it
    caution: Words  # what to take care of; empty for nothing

    @property
    def words(self) -> Words:
        """What to do and what comes of it."""
        stop = "" if self.do.ends_the_sentence else "."
        return say(f"{{}}{stop} {{}}", self.do, self.then)


def by_hand(state: JobState) -> tuple[ByHand, ...]:
    """What is still to be done by hand, in the order that it was taken.

    It is done once a size that it changes is read after it, or the step is finished in which it was taken.
    """
    step = state.step.number if state.step is not None else 0
    ways = [
        ByHand(entry.number, way.title, way.changes, way.caution)
        for entry in state.counted.values()
        if isinstance(way := entry.body, WayBackTaken) and way.step == step
        if not _is_done(state, entry, way)
    ]
    return (*ways, *_marks_anew(state, step))


def _marks_anew(state: JobState, step: int) -> Iterator[ByHand]:
    """The marks that a changed recipe wants on a marked bar, until metal beside them is worked."""
    amended = [
        (entry.number, entry.body.step) for entry in state.counted.values() if isinstance(entry.body, Amended)
    ]
    if not amended or not step or state.start is None:
        return
    since = state.plan.recipe.steps[amended[-1][1] - 1 : step - 1]
    worked = {zone for one in since for zone in one.zones}
    for piece, by in state.marked_by.items():
        planned = by.pieces.get(piece)
        if planned is None or not planned.marks or piece not in state.plan.recipe.pieces:
            continue
        made_mm = _where_made_mm(state, planned)
        anew = [
            say("{} {}", zone, mm(at_mm))
            for zone in state.plan.recipe.pieces[piece].zones
            if zone in state.start.zones
            and state.start.has_mark(zone)
            and worked.isdisjoint(_beside(zone, state.plan.recipe.pieces[piece].zones))
            for at_mm in [state.start.size(zone, MARK).value]
            if not {*made_mm} >= {*state.plan.recipe.pieces[piece].zones}  # else nothing is parted otherwise
            and all(abs(at_mm - one) >= _A_MARK_MOVES_MM for one in made_mm.values())
        ]
        if anew:
            told = say("Mark the {} from its end: {}", piece, run_on(anew, ", "))
            yield ByHand(amended[-1][0], told, say("The recipe has it so since it was changed."), NOTHING)


def _where_made_mm(state: JobState, planned: PlannedPiece) -> dict[str, float]:
    """Where each mark that was made lies now, mm: what was worked before it has moved it along."""
    assert state.start is not None
    assert state.step is not None
    steps = state.plan.recipe.steps[: state.step.number - 1]
    worked = {zone for one in steps for zone in one.zones if reshapes(one, zone)}
    grown_mm, before_mm, made_mm = 0.0, 0.0, dict[str, float]()
    for mark in planned.marks:
        at_mm = mark.at.value - planned.begins.value
        is_there = mark.ends in state.start.zones and state.start.zones[mark.ends].has_form
        if mark.ends in worked and is_there:
            long_mm = state.start.form(mark.ends).sizes_mm().get("length", at_mm - before_mm)
            grown_mm += long_mm - (at_mm - before_mm)
        made_mm[mark.ends] = at_mm + grown_mm
        before_mm = at_mm
    return made_mm


def _beside(zone: str, zones: Sequence[str]) -> Sequence[str]:
    """The zones on either side of the mark where one ends."""
    at = zones.index(zone)
    return zones[at : at + 2]


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
