"""A cut made short or long of its mark, where the next piece of the row is marked on the bar behind it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TypeAlias

from coach.ledger.amendment import WELDING_HEATS
from coach.ledger.belief import Change
from coach.ledger.course import AmendmentMark, Course, ReadingMark
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.step_again import title_again
from coach.ledger.workpiece import Workpiece, volume_name
from coach.operations import Does
from coach.operations.does import Cause
from coach.recipe.model import Piece, Step
from coach.recipe.one_bar import next_on_bar

Follow: TypeAlias = Callable[..., Course]
"""How a step is replayed as far as some of its marks: `coach.ledger.following.follow`."""

#: How well the place of a cut is known beside the marks of its bar, mm (common practice, no source).
_CUT_MM = 1.0


def beyond_the_cut_mm3(plan: Plan, course: Course, piece: Piece, follow: Follow) -> float:
    """How much more of its bar than it held was cut off with a piece, by what was read of the cut.

    Less than nothing where it was cut short; 0 where nothing was read of it.
    """
    zone, whole = piece.zones[-1], course
    free = course.start.zones[zone].free
    course = _as_it_was_cut(plan, course, zone, free, follow)
    read = [one for one in course.outcomes if one.mark.reading[:2] == (zone, free) and one.counts]
    stages = stages_as_done(plan, course.step)
    if not read or zone not in stages:
        return 0.0
    ways = [mark.amendment for mark in course.marks if isinstance(mark, AmendmentMark)]
    anew = [one for way in ways for one in way.cut_anew if one.zone == zone]
    end_mm3 = anew[0].aside_mm3 if anew else course.now.volume_mm3(zone)
    moved = sum(one.volume_mm3 for way in ways for one in way.moved if one.zone == zone)
    # More heats that a way back asks for, as to weld more on, are taken once it is cut.
    taken = dict(stages[zone].taken_mm3)
    if Cause.SCALE in taken and whole is not course:
        taken[Cause.SCALE] *= course.step.heats / whole.step.heats
    return end_mm3 - moved - (course.start.volume_mm3(zone) - sum(taken.values()))


def stages_as_done(plan: Plan, step: Step) -> Mapping[str, Stage]:
    """What a step did to its zones; of one whose piece is cut anew since, what that one has done to it.

    What is planned of the spoiled one's own step is nothing any more.
    """
    there = plan.recipe.steps[step.number - 1]
    while there.operation != step.operation:
        title, ahead = title_again(there.title), plan.recipe.steps[there.number :]
        anew = next((one for one in ahead if one.title == title and one.zones == step.zones), None)
        if anew is None:
            break
        there = anew
    return plan.by_step[there.number]


def _more_heats(course: Course) -> int:
    ways = [mark.amendment for mark in course.marks if isinstance(mark, AmendmentMark)]
    more = sum(one.step == course.step.number for way in ways for one in way.heats if way.moved)
    return min(WELDING_HEATS * more, course.step.heats)


def _as_it_was_cut(plan: Plan, course: Course, zone: str, free: str, follow: Follow) -> Course:
    """A step as far as what was read of its cut, where metal was welded on or lost behind it.

    What is read of the piece from then on tells nothing of where the bar was cut.
    """
    is_read = False
    for at, mark in enumerate(course.marks):
        if isinstance(mark, ReadingMark):
            is_read = is_read or mark.reading[:2] == (zone, free)
        elif is_read and isinstance(mark, AmendmentMark) and mark.amendment.moves(zone):
            before, doubted = course.marks[:at], course.doubted
            step = course.step._replace(heats=course.step.heats - _more_heats(course))
            return follow(plan, course.start, step, before, finished=False, doubted=doubted)
    return course


def with_the_rest(
    plan: Plan, course: Course, follow: Follow, anew_from: Callable[[Workpiece], Course]
) -> Course:
    """What a piece was cut short by is at the front of the next one, whose marks stay where they are.

    So much less is there where it was cut long. Only where that one is marked and nothing has worked it. It
    is so too where the piece was spoiled by that cut and is cut anew since. Whatever else is entered for the
    next piece in that step finds it there: `anew_from` follows the step from where it lay so.
    """
    step, start = course.step, course.start
    if not plan.recipe.marks_in_row:
        return course
    cuts = step.does(Does.CUTS_FREE) and any(isinstance(mark, ReadingMark) for mark in course.marks)
    for zone in step.zones:
        piece = plan.recipe.piece_of(zone)
        behind = _marked_behind(plan, step, piece) if zone == piece.zones[-1] else None
        if behind is None:
            continue
        left_mm3 = -(
            beyond_the_cut_mm3(plan, course, piece, follow)
            if cuts
            else beyond_spoiled_mm3(plan, course, zone)
        )
        if not left_mm3:
            continue
        name = volume_name(behind)
        there_mm3 = start.belief.mean(name) + left_mm3
        if there_mm3 <= 0.0:  # it was cut through the whole of that zone
            continue
        # What the reading tells of the mark between the two is a part of that.
        there_mm3 -= _by_the_mark_mm3(plan, course, zone, name, follow)
        doubt_mm3 = _CUT_MM * plan.bar_of(behind).end_area_mm2("finish")
        change = Change(there_mm3, {name: 1.0}, variance=doubt_mm3**2)
        start = start._replace(belief=start.belief.predict({name: change}))
    for piece in _read_after_their_cut(plan, course):
        start = _with_the_rest_of(plan, course, piece, start, follow)
    return course if start is course.start else anew_from(start)._replace(start=course.start)


def _read_after_their_cut(plan: Plan, course: Course) -> list[Piece]:
    """The pieces whose length at the cut is read in a step after it: nothing has worked that end since."""
    recipe, found = plan.recipe, dict[str, Piece]()
    for mark in course.marks:
        if not isinstance(mark, ReadingMark):
            continue
        zone, piece = mark.reading.zone, recipe.piece_of(mark.reading.zone)
        there = course.start.zones[zone]
        if zone != piece.zones[-1] or zone in course.step.metal or mark.reading.dimension != there.free:
            continue
        behind = [step for step in recipe.steps[: course.step.number - 1] if zone in step.metal]
        if behind and behind[-1].does(Does.CUTS_FREE) and not behind[-1].again:
            found[piece.name] = piece
    return list(found.values())


def _with_the_rest_of(
    plan: Plan, course: Course, piece: Piece, start: Workpiece, follow: Follow
) -> Workpiece:
    """Where a piece turns out longer or shorter than it was cut, the next one of its row is by so much other.

    How doubtful that is goes by how doubtful the cut was, at most as the place of a cut is.
    """
    zone, behind = piece.zones[-1], _marked_behind(plan, course.step, piece)
    if behind is None:
        return start
    own = [one for one in course.marks if isinstance(one, ReadingMark) and one.reading.zone == zone]
    told = follow(plan, course.start, course.step, own, finished=False, doubted=course.doubted, of_row=False)
    name, belief = volume_name(behind), course.start.belief
    by_the_mark_mm3 = told.now.belief.mean(name) - belief.mean(name)
    left_mm3 = course.start.volume_mm3(zone) - told.now.volume_mm3(zone) - by_the_mark_mm3
    there_mm3 = start.belief.mean(name) + left_mm3
    if not left_mm3 or there_mm3 <= 0.0:
        return start
    most_mm3 = _CUT_MM * plan.bar_of(behind).end_area_mm2("finish")
    variance = min(most_mm3**2, belief.variance_of({volume_name(zone): 1.0}))
    return start._replace(
        belief=start.belief.predict({name: Change(there_mm3, {name: 1.0}, variance=variance)})
    )


def _by_the_mark_mm3(plan: Plan, course: Course, zone: str, name: str, follow: Follow) -> float:
    """What the readings of a cut alone tell of the volume of the next zone, by the mark between them."""
    cut = _as_it_was_cut(plan, course, zone, course.start.zones[zone].free, follow)
    own = [mark for mark in cut.marks if isinstance(mark, ReadingMark) and mark.reading.zone == zone]
    told = follow(plan, course.start, course.step, own, finished=False, doubted=course.doubted, of_row=False)
    return told.now.belief.mean(name) - course.start.belief.mean(name)


def beyond_spoiled_mm3(plan: Plan, course: Course, zone: str) -> float:
    """How much more than it held was cut off with a piece that was spoiled so: by what was set aside of it.

    What was lost of it meanwhile was no part of the cut. 0 where the step did not cut it, and where that is
    less than the place of a cut is known by.
    """
    ways = [mark.amendment for mark in course.marks if isinstance(mark, AmendmentMark)]
    aside = next((one.aside_mm3 for way in ways for one in way.cut_anew if one.zone == zone), None)
    title = title_again(course.step.title)
    ahead = plan.recipe.steps[course.step.number :]
    cut = next((one for one in ahead if one.title == title and one.zones == course.step.zones), None)
    if aside is None or cut is None or not cut.does(Does.CUTS_FREE) or zone not in plan.by_step[cut.number]:
        return 0.0
    moved = sum(one.volume_mm3 for way in ways for one in way.moved if one.zone == zone)
    taken = sum(plan.by_step[cut.number][zone].taken_mm3.values())
    beyond_mm3 = aside - moved - (course.start.volume_mm3(zone) - taken)
    least_mm3 = _CUT_MM * plan.bar_of(zone).end_area_mm2("finish")
    return beyond_mm3 if abs(beyond_mm3) >= least_mm3 else 0.0


def _marked_behind(plan: Plan, step: Step, piece: Piece) -> str | None:
    """The front zone of the piece behind one on its bar, where that is marked and lies there unworked."""
    behind = next_on_bar(plan.recipe, piece.name)
    if behind is None or step.again or _is_of_one_cut_anew(plan, step):  # that one lay elsewhere
        return None
    zones = {*plan.recipe.piece_of(behind).every_zone}
    before = plan.recipe.steps[: step.number - 1]
    worked = any(zones & {*one.worked} for one in before if not one.does(Does.MARKS_OUT))
    return None if worked else behind


def _is_of_one_cut_anew(plan: Plan, step: Step) -> bool:
    """Whether a step is done for a piece that is cut anew, after the one of it that was spoiled."""
    before = plan.recipe.steps[: step.number - 1]
    return any(one.zones == step.zones and title_again(one.title) == step.title for one in before)
