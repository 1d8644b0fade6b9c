"""What a zone is like while a step works it and nobody has measured it: by the heats that it has had."""

from __future__ import annotations

from typing import NamedTuple

from coach.forms import Form, FormError
from coach.ledger.course import Course, asked_names
from coach.ledger.plan import Plan
from coach.ledger.workpiece import size_name
from coach.operations import operation

#: No zone is further ahead of its heats, or behind them, than this share of the whole work (judgement: who
#: points an end before drawing it has that end done first).
_OFF_SHARE = 0.5


class HalfWay(NamedTuple):
    """A zone on its way through a step, where sizes that it works were not read."""

    likely: Form  # by the heats that were given
    least_worked: Form  # as little as may be done yet
    most_worked: Form  # and as much


def half_way(plan: Plan, course: Course, zone: str) -> HalfWay | None:
    """How a zone stands by the heats that were given; None where its step does not hammer it or it was read.

    Every size that the step works, and that nobody read in it, goes the same share of its way as heats were
    taken of those planned (common practice, no source), and the metal makes the rest.
    """
    step, stage, start = course.step, plan.by_step[course.step.number].get(zone), course.start.zones[zone]
    if stage is None or not start.has_form or not step.heats or operation(step.operation).FIXES:
        return None
    names = {name for name in asked_names(plan, step) if name.rsplit(".", 1)[0] == zone}
    names = {name for name in names if not course.is_read(zone, name.rsplit(".", 1)[1])}
    if not names or course.is_read(zone, stage.after.free):
        return None
    share = min(course.heats / step.heats, 1.0)
    have, now, shape = course.start.form(zone).sizes_mm(), course.now.form(zone), stage.after.shape
    sizes, volume_mm3 = now.sizes_mm(), now.volume_mm3()

    def at(done: float) -> Form:
        """The zone with this share of the work done."""
        found = {}
        for name, size_mm in sizes.items():
            leader = stage.after.leader(name)
            source = shape.worked_from(name, size_mm, have)
            if name != stage.after.free and size_name(zone, leader) in names and source is not None:
                found[name] = have[source] + done * (size_mm - have[source])
        return now.with_sizes(found).solved(stage.after.free, volume_mm3)

    try:
        return HalfWay(at(share), at(max(share - _OFF_SHARE, 0.0)), at(1.0))
    except FormError:
        return None
