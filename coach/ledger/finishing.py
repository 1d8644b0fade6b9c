"""The step in hand worked to its end, by what was read in it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from itertools import pairwise
from typing import NamedTuple

from coach.ledger.course import (
    Course,
    Outcome,
    ReadingMark,
    asked_names,
    believed_name,
    heats_in,
    left_as_read,
    read_names,
    stays_as_read,
)
from coach.ledger.following import follow
from coach.ledger.heats import left_shares, scaled, worked_to_the_end
from coach.ledger.landing import looked_back
from coach.ledger.plan import Plan
from coach.ledger.settling import worked_again_share
from coach.ledger.stepping import step_on
from coach.ledger.workpiece import Heats, Workpiece
from coach.operations import operation
from coach.recipe.model import Step


class AsRead(NamedTuple):
    """What the step in hand leaves as it was read, each as surely as it does."""

    sizes: Mapping[str, float]  # that it works to and no heat has worked since, by the belief's names
    zones: Mapping[str, float]  # those whose metal stays


def as_read(plan: Plan, course: Course) -> AsRead:
    """What the step that is going on leaves as it was read."""
    sizes = left_where_read(plan, course)
    return AsRead(sizes, stays_as_read(plan, course, left_as_read(plan, course, surely=False), sizes))


def finished_course(plan: Plan, course: Course, left_as: AsRead) -> Workpiece:
    """The step that is going on, worked to its end: what is not there yet comes to its target."""
    step, now = course.step, course.now
    if operation(step.operation).FIXES:
        return _fixing_finished(plan, course)
    asked, read, (landed, stays) = asked_names(plan, step), read_names(plan, course), left_as
    left = _heats_left(course, min((landed.get(name, 0.0) for name in asked), default=0.0))
    unread = {name.rsplit(".", 1)[0] for name in asked - read}
    if any(share and zone in unread for zone, share in stays.items()):
        now = as_if_finished(plan, course).now
    at_end = step_on(plan, course.start, step, heats=0.0).belief

    def done(now: Workpiece, as_it_is: Collection[str]) -> Workpiece:
        open_still = [name for name in asked if name in read or name.rsplit(".", 1)[0] not in as_it_is]
        now = looked_back(now, course.start, plan.by_step[step.number], landed)
        workpiece = worked_to_the_end(
            plan, now, step, open_still, read, landed, _hammered_on_share(course), at_end
        )
        return scaled(plan, workpiece, step, course.scaling, left)

    # By degrees: the case that no zone stays and those that more and more do, each as likely as it is.
    partly = {zone: share for zone, share in stays.items() if zone in unread}
    found, likely = course.now, 0.0
    for above, below in pairwise([1.0, *sorted(set(partly.values()), reverse=True), 0.0]):
        if above == below:
            continue
        staying = {zone for zone, share in partly.items() if share >= above}
        case, likely = done(now if staying else course.now, staying), likely + above - below
        share = (above - below) / likely
        found = case._replace(belief=found.belief.mixed(case.belief, share)) if share < 1.0 else case
    return found


def _heats_left(course: Course, done: float) -> Heats:
    """The heats that the step is to take still: as the shop takes them, where those are known.

    As surely as it is `done`, each size left where it was read, none comes beyond those planned.
    """
    planned = max(0.0, course.step.heats - course.heats)
    here, more = course.start.heats_to_come(course.step, course.heats), 1.0 - done
    slopes = {quantity: more * slope for quantity, slope in here.slopes.items()}
    return Heats(planned + more * (here.number - planned), slopes)


def _hammered_on_share(course: Course) -> float:
    """How surely at least one heat of the step is to come.

    Where none was marked all of them were taken, as surely as the readings tell, or none.
    """
    left = max(0.0, course.step.heats - course.heats)
    return min(left, 1.0) if heats_in(course.marks) or not left else left / course.step.heats


def left_where_read(plan: Plan, course: Course) -> dict[str, float]:
    """The sizes that the step in hand works to and that no heat has worked since they were read.

    By the belief's names, each with how surely it is left there.
    """
    step = course.step
    as_read = {believed_name(plan, step, one.mark.reading) for one in course.outcomes if one.counts}
    return left_shares(plan, course.now, step, asked_names(plan, step) & as_read)


def as_if_finished(plan: Plan, course: Course) -> Course:
    """The step in hand as it would be told if it were finished now, by the same readings."""
    believed = {one.mark.entry for one in course.outcomes if not one.questioned}
    marks = [
        mark._replace(is_believed=True) if isinstance(mark, ReadingMark) and mark.entry in believed else mark
        for mark in course.marks
    ]
    return finished_now(plan, course._replace(marks=tuple(marks)))


def finished_now(plan: Plan, course: Course) -> Course:
    """The step in hand finished as it stands: whether its readings are believed is asked once more."""
    return follow(
        plan,
        course.start,
        course.step,
        course.marks,
        finished=True,
        unmarked=course.heats - heats_in(course.marks),
        landed=False,
        doubted=course.doubted,
    )


def _fixing_finished(plan: Plan, course: Course) -> Workpiece:
    """A cut or a grind worked to its end: where a size was read as more to go, the rest of it comes off."""
    step = course.step
    ended = as_if_finished(plan, course)
    left = _heats_left(course, 0.0)
    now = scaled(plan, ended.now, step, course.scaling, left)
    judged = {o.mark.reading.dimension for o in ended.outcomes if o.judged and not o.questioned}
    latest = [ended.last(zone, dimension) for zone in step.zones for dimension in judged]
    share = max((_more_to_come_off(plan, step, outcome) for outcome in latest if outcome), default=0.0)
    stages = plan.by_step[step.number]
    read = {believed_name(plan, step, one.mark.reading) for one in ended.outcomes if one.counts}
    landed = dict.fromkeys(asked_names(plan, step) & read, 1.0 - share)
    now = looked_back(now, course.start, stages, landed)
    if not share:
        return now
    more = step_on(plan, now, step, heats=0.0)
    return more._replace(belief=now.belief.mixed(more.belief, share), hand=now.hand)


def _more_to_come_off(plan: Plan, step: Step, outcome: Outcome) -> float:
    """How surely a size that was read is cut or ground further."""
    zone, dimension = outcome.mark.reading.zone, outcome.mark.reading.dimension
    stage, limits, surprise = plan.by_step[step.number].get(zone), outcome.limits, outcome.surprise
    if stage is None or limits is None or surprise is None or dimension not in step.targets:
        return 0.0
    return worked_again_share(stage, dimension, surprise.cold.size_mm, limits, surprise.cold.doubt_mm)
