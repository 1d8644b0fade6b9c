"""The step that is going on, as it will be when it is done."""

from __future__ import annotations

from coach.ledger.belief import Change
from coach.ledger.course import Course, asked_names, believed_name
from coach.ledger.following import follow
from coach.ledger.hammering import worked_on
from coach.ledger.plan import Plan
from coach.ledger.scaling import scaled
from coach.ledger.settling import reset, scatter_mm
from coach.ledger.stepping import step_on
from coach.ledger.verdict import Verdict
from coach.ledger.workpiece import Workpiece
from coach.operations import operation


def finished_course(plan: Plan, course: Course) -> Workpiece:
    """The step that is going on, worked to its end: what is not there yet comes to its target."""
    step, now = course.step, course.now
    if operation(step.operation).FIXES:
        return _fixing_finished(plan, course)
    read = {believed_name(plan, step, o.mark.reading) for o in course.outcomes if not o.questioned}
    left = max(0, step.heats - course.heats)
    changes = {}
    there = []
    for name in sorted(asked_names(plan, step)):
        zone, dimension = name.rsplit(".", 1)
        stage = plan.by_step[step.number][zone]
        limits = step.targets[dimension]
        size = now.belief.mean(name)
        past = stage.is_past(dimension, size, limits.nominal)
        if name in read and (past or limits.contains(size)):
            there.append(name)
        elif not past or limits.contains(size):
            changes[name] = Change(limits.nominal, {}, scatter_mm(limits, limits.nominal) ** 2)
    workpiece = reset(now, changes) if changes else now
    if not left:
        return workpiece
    # What is there already lies under the hammer with the rest of the zone in the heats still to come.
    workpiece = worked_on(plan, workpiece, step, there)
    return scaled(plan, workpiece, step, course.scaling, float(left))


def _fixing_finished(plan: Plan, course: Course) -> Workpiece:
    """A cut or a grind worked to its end: where a size was read as more to go, the rest of it comes off."""
    step = course.step
    ended = follow(plan, course.start, step, course.marks, finished=True)
    left = max(0, step.heats - course.heats)
    now = scaled(plan, ended.now, step, course.scaling, float(left)) if left else ended.now
    more = {o.mark.reading.dimension for o in ended.outcomes if o.judged and not o.questioned}
    latest = [ended.last(zone, dimension) for zone in step.zones for dimension in more]
    if any(o is not None and o.judged is not None and o.judged.verdict is Verdict.MORE_TO_GO for o in latest):
        now = step_on(plan, now, step, heats=0.0)
    return now
