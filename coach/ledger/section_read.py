"""What is wanted of a length whose section was read and is left as it is: no more work makes it longer."""

from __future__ import annotations

from typing import Final

from coach.ledger.course import Course, asked_names, believed_name
from coach.ledger.plan import Plan
from coach.ledger.verdict import Verdict
from coach.ledger.wanting import final_limits, is_drawn_out
from coach.quantities import Limits

_LEFT: Final = frozenset({Verdict.GOOD, Verdict.UNSURE})


def wanted_in_section(plan: Plan, course: Course, zone: str, dimension: str) -> Limits | None:
    """What the drawing asks of a length that a step draws out, once every size of its section is good there.

    So a reading of it is judged then, and so it is told before there is one. None while some of its section
    has more to go or was not read, and where a step ahead moves metal along it still. In mm.
    """
    step = course.step
    stage = plan.by_step[step.number].get(zone)
    if stage is None or not is_drawn_out(stage, dimension):
        return None
    latest = {believed_name(plan, step, one.mark.reading): one for one in course.outcomes}
    section = [latest.get(name) for name in asked_names(plan, step) if name.rsplit(".", 1)[0] == zone]
    if not section or any(one is None or not one.counts or one.verdict not in _LEFT for one in section):
        return None
    return final_limits(plan, stage)
