"""A hole that was punched off its place along the bar: the marks on both sides of it go with it."""

from __future__ import annotations

from math import inf
from typing import Final

from coach.bench.job_state import JobState
from coach.ledger.wanting import centre_wanted
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Estimate
from coach.log.kinds.reading import Reading
from coach.operations import Does
from coach.operations.measures import CENTRE, MARK
from coach.quantities import COVERAGE
from coach.quantities.figure import mm
from coach.quantities.words import NOTHING, Words, say

#: A hole is not punched nearer to its mark than this (judgement).
_NEAR_MM: Final = 0.5
_GO_WITH_IT: Final = (
    "the hole stands {} {} its place, and the marks beside it go with it: the {} ends at {}, the {} at {}. "
    "Read these two at step {}, as {}.mark and {}.mark, and insist: the metal is counted so"
)
_GOES_ALONE: Final = (
    "the hole stands {} {} its place. The {} is forged and was read, and ends where it does: the {} has that "
    "much {} before its hole, and ends at {}. Read that at step {}, as {}.mark, and insist: the metal is "
    "counted so"
)


_OUTSIDE: Final = (
    "that is {} {} its place, and outside the {}: is it a slip? Strike it out and read it again, from the "
    "end that the marks are measured from"
)


def off_along(state: JobState, read: Reading) -> Words:
    """Where the marks of its neighbours are then, and by how much; nothing where it stands in its place."""
    steps = state.plan.recipe.steps
    if read.dimension != CENTRE or not 0 < read.step <= len(steps):
        return NOTHING
    wanted = centre_wanted(state.plan, read.zone)
    if wanted is None or not steps[read.step - 1].does(Does.PUNCHES):
        return NOTHING
    there, of_bar = _middle(state, read.step, read.zone) or (Estimate(wanted.nominal, 0.0, {}), 1.0)
    off_mm = read.size - there.value
    piece = state.plan.recipe.piece_of(read.zone)
    at = piece.zones.index(read.zone)
    marking = next((one for one in steps if one.does(Does.MARKS_OUT) and read.zone in one.zones), None)
    if abs(off_mm) < max(_NEAR_MM, COVERAGE * there.doubt) or at == 0 or marking is None:
        return NOTHING
    before, own = piece.zones[at - 1], read.zone
    if abs(off_mm) > _half_mm(state, read.step, own):
        return say(_OUTSIDE, mm(abs(off_mm)), "beyond" if off_mm > 0.0 else "short of", own)
    ends = [mm(_mark_mm(state, zone) + of_bar * off_mm) for zone in (before, own)]
    where = "beyond" if off_mm > 0.0 else "short of"
    if _is_settled(state, before, read.step):
        much = "more" if off_mm > 0.0 else "less"
        number = marking.number
        return say(_GOES_ALONE, mm(abs(off_mm)), where, before, own, much, ends[1], number, own)
    return say(
        _GO_WITH_IT, mm(abs(off_mm)), where, before, ends[0], own, ends[1], marking.number, before, own
    )


def _is_settled(state: JobState, zone: str, number: int) -> bool:
    """Whether a zone was forged before a step, and read by what its metal makes: its mark moves no more."""
    return any(
        one.counts and one.mark.reading[:2] == (zone, course.start.zones[zone].free)
        for course in state.courses()
        if course.step.number < number and reshapes(course.step, zone) and zone in course.start.zones
        for one in course.outcomes
    )


def _half_mm(state: JobState, number: int, zone: str) -> float:
    """Half of how long a zone is as a step begins: a hole further off its middle is not in it."""
    start = next((one.start for one in state.courses() if one.step.number == number), None)
    there = start is not None and zone in start.zones and "length" in start.zones[zone].shape.dimensions
    return 0.5 * start.size(zone, "length").value if there and start is not None else inf


def _middle(state: JobState, number: int, zone: str) -> tuple[Estimate, float] | None:
    """The middle of a zone from the end of the bar as a step began, and a mm of it there in mm of bar.

    What was upset or drawn before the hole goes in has taken its place along with it. None where the zone has
    no place along its bar by then.
    """
    start = next((one.start for one in state.courses() if one.step.number == number), None)
    if start is None or zone not in start.zones or not start.has_mark(zone):
        return None
    end, length = start.size(zone, MARK), start.size(zone, "length")
    half = length._replace(
        value=-length.value / 2.0, slopes={n: -by / 2.0 for n, by in length.slopes.items()}
    )
    of_bar_mm = start.volume_mm3(zone) / state.plan.bar_of(zone).end_area_mm2("finish")
    return start.summed((end, half)), of_bar_mm / length.value


def _mark_mm(state: JobState, zone: str) -> float:
    """Where the mark at a zone's end was made, as it is believed, from the end of the bar."""
    for course in state.courses():
        if course.step.does(Does.MARKS_OUT) and zone in course.step.zones and course.now.has_mark(zone):
            return course.now.size(zone, MARK).value
    piece = state.plan.pieces[state.plan.recipe.piece_of(zone).name]
    return next(one.at.value for one in piece.marks if one.ends == zone)
