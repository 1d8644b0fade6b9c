"""A cut made short or long of its mark, where the next piece of the row is marked on the bar behind it."""

from __future__ import annotations

from coach.ledger.belief import Change
from coach.ledger.course import AmendmentMark, Course
from coach.ledger.plan import Plan
from coach.ledger.workpiece import volume_name
from coach.operations import Does
from coach.recipe.model import Piece, Step
from coach.recipe.one_bar import next_on_bar

#: How well the place of a cut is known beside the marks of its bar, mm (common practice, no source).
_CUT_MM = 1.0


def beyond_the_cut_mm3(plan: Plan, course: Course, piece: Piece) -> float:
    """How much more of its bar than it held was cut off with a piece, by what was read of the cut.

    Less than nothing where it was cut short; 0 where nothing was read of it.
    """
    zone = piece.zones[-1]
    free = course.start.zones[zone].free
    read = [one for one in course.outcomes if one.mark.reading[:2] == (zone, free) and one.counts]
    if not read or zone not in plan.by_step[course.step.number]:
        return 0.0
    ways = [mark.amendment for mark in course.marks if isinstance(mark, AmendmentMark)]
    anew = [one for way in ways for one in way.cut_anew if one.zone == zone]
    end_mm3 = anew[0].aside_mm3 if anew else course.now.volume_mm3(zone)
    moved = sum(one.volume_mm3 for way in ways for one in way.moved if one.zone == zone)
    taken = sum(plan.by_step[course.step.number][zone].taken_mm3.values())
    return end_mm3 - moved - (course.start.volume_mm3(zone) - taken)


def with_the_rest(plan: Plan, course: Course) -> Course:
    """What a piece was cut short by is at the front of the next one, whose marks stay where they are.

    So much less is there where it was cut long. Only where that one is marked and nothing has worked it.
    """
    step = course.step
    if not (step.does(Does.CUTS_FREE) and plan.recipe.marks_in_row and course.outcomes):
        return course
    for zone in step.zones:
        piece = plan.recipe.piece_of(zone)
        behind = _marked_behind(plan, step, piece) if zone == piece.zones[-1] else None
        if behind is None or not (left_mm3 := -beyond_the_cut_mm3(plan, course, piece)):
            continue
        name, now = volume_name(behind), course.now
        # What the reading told of the mark between the two is a part of that.
        there_mm3 = course.start.belief.mean(name) + left_mm3
        if there_mm3 <= 0.0:  # it was cut through the whole of that zone
            continue
        doubt_mm3 = _CUT_MM * plan.bar_of(behind).end_area_mm2("finish")
        change = Change(there_mm3, {name: 1.0}, variance=doubt_mm3**2)
        course = course._replace(now=now._replace(belief=now.belief.predict({name: change})))
    return course


def _marked_behind(plan: Plan, step: Step, piece: Piece) -> str | None:
    """The front zone of the piece behind one on its bar, where that is marked and lies there unworked."""
    behind = None if step.again else next_on_bar(plan.recipe, piece.name)  # one cut anew lay elsewhere
    if behind is None:
        return None
    zones = {*plan.recipe.piece_of(behind).every_zone}
    before = plan.recipe.steps[: step.number - 1]
    worked = any(zones & {*one.worked} for one in before if not one.does(Does.MARKS_OUT))
    return None if worked else behind
