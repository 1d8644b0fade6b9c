"""A hole that was punched off its place along the bar: the marks on both sides of it go with it."""

from __future__ import annotations

from math import hypot, inf
from typing import Final

from coach.bench.job_state import JobState
from coach.ledger.course import Course
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
_INTO: Final = (
    "that is {} {} its place, and the hole would reach {} into the {}, which is forged and was read: is it a "
    "slip? Strike it out and read it again, from the end that the marks are measured from"
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
    lengthens_mm = _lengthens_mm(state, read.step, read.zone)
    if min(0.0, lengthens_mm / 2.0) - _NEAR_MM < off_mm < max(0.0, lengthens_mm / 2.0) + _NEAR_MM:
        return NOTHING  # nobody read how far the punch has lengthened it
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
        into_mm = -off_mm - _beside_hole_mm(state, read.step, own)
        if into_mm > _NEAR_MM:
            return say(_INTO, mm(-off_mm), where, mm(into_mm), before)
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
    """Half of how long a zone is: a hole further off its middle is not in it."""
    course = _course(state, number)
    there = course is not None and zone in course.start.zones
    if course is None or not there or "length" not in course.start.zones[zone].shape.dimensions:
        return inf
    return 0.5 * (_length_read(course, zone) or course.start.size(zone, "length")).value


def _beside_hole_mm(state: JobState, number: int, zone: str) -> float:
    """What stays of a zone on each side of a hole in its middle, along the bar, mm."""
    stage = state.plan.by_step[number].get(zone)
    hole_mm = stage.form_after.sizes_mm().get("hole_length", 0.0) if stage is not None else 0.0
    return _half_mm(state, number, zone) - hole_mm / 2.0


def _course(state: JobState, number: int) -> Course | None:
    return next((one for one in state.courses() if one.step.number == number), None)


def _length_read(course: Course, zone: str) -> Estimate | None:
    """How long a zone is with the hole in it, where that was read in the step."""
    read = any(one.counts and one.mark.reading[:2] == (zone, "length") for one in course.outcomes)
    there = read and zone in course.now.zones and "length" in course.now.zones[zone].shape.dimensions
    return course.now.size(zone, "length") if there else None


def _lengthens_mm(state: JobState, number: int, zone: str) -> float:
    """How much longer the punch makes a zone, as planned; 0 where its length was read with the hole."""
    course, stage = _course(state, number), state.plan.by_step[number].get(zone)
    if course is None or stage is None or _length_read(course, zone) is not None:
        return 0.0
    return stage.changes_mm("length")


def _middle(state: JobState, number: int, zone: str) -> tuple[Estimate, float] | None:
    """The middle of a zone from the end of the bar, and a mm of it there in mm of bar.

    What was upset or drawn before the hole goes in has taken its place along with it, and the punch lengthens
    what lies on both sides of the hole: by as much as was read then. None where the zone has no place along
    its bar by then.
    """
    course = _course(state, number)
    if course is None or zone not in (start := course.start).zones or not start.has_mark(zone):
        return None
    end, length = start.size(zone, MARK), start.size(zone, "length")
    with_hole = _length_read(course, zone) or length
    of_bar_mm = start.volume_mm3(zone) / state.plan.bar_of(zone).end_area_mm2("finish")
    before = start.summed((end, _times(length, -1.0)))
    middle_mm = before.value + with_hole.value / 2.0
    if with_hole is length:
        return start.summed((end, _times(length, -0.5))), of_bar_mm / length.value
    return Estimate(middle_mm, hypot(before.doubt, with_hole.doubt / 2.0), {}), of_bar_mm / with_hole.value


def _times(one: Estimate, by: float) -> Estimate:
    return one._replace(value=by * one.value, slopes={name: by * slope for name, slope in one.slopes.items()})


def _mark_mm(state: JobState, zone: str) -> float:
    """Where the mark at a zone's end was made, as it is believed, from the end of the bar."""
    for course in state.courses():
        if course.step.does(Does.MARKS_OUT) and zone in course.step.zones and course.now.has_mark(zone):
            return course.now.size(zone, MARK).value
    piece = state.plan.pieces[state.plan.recipe.piece_of(zone).name]
    return next(one.at.value for one in piece.marks if one.ends == zone)
