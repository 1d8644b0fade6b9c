"""Where a step would leave a zone that lost metal, if it were ended with no blow since."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from itertools import takewhile

from coach.bench.by_hand import ByHand
from coach.bench.job_state import JobState
from coach.bench.replay import after
from coach.forms import FormError, said
from coach.ledger.course import AmendmentMark, Course, HeatMark
from coach.ledger.verdict import PlanState, Reason, Why, plan_state
from coach.ledger.working import LedgerError, reshapes
from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.quantities import NOTHING, Words, say


def worked_again(entries: Sequence[Entry], state: JobState) -> Iterator[ByHand]:
    """The zones of the step in hand that lost metal since its last heat, and are short as they lie.

    What is told of the job counts each as worked again to the sizes that its step asks for.
    """
    course, step, found = state.course(), state.step, state.forecast()
    if course is None or step is None or found is None or found.trouble:
        return
    zones = {zone: number for zone, number in _lost_since(course).items() if reshapes(step, zone)}
    if not zones:
        return
    last = entries[-1]
    done = Done(step=step.number, heats=state.heats, marked=True, told=False)
    with suppress(LedgerError, FormError):
        then = after(state, Entry(last.job, last.number + 1, last.at, done, last.digest, "")).forecast()
        if then is None or then.trouble:
            return
        for zone, number in zones.items():
            if zone not in then.zones or zone not in found.zones:
                continue
            ended, told = then.zones[zone], found.zones[zone]
            reason = ended.reason or ended.nearest
            if reason is not None and _is_worse(ended.chance, told.chance):
                clause = say("Metal of it was lost, and what is told counts on that. {}", _left(reason))
                yield ByHand(
                    number, say("Work the {} again to the sizes of this step", zone), clause, NOTHING
                )


def _is_worse(ended: float, told: float) -> bool:
    order = list(PlanState)
    return order.index(plan_state(ended)) > order.index(plan_state(told))


def _lost_since(course: Course) -> dict[str, int]:
    """The zones that lost metal since the last heat and were not read since, each with its last entry."""
    since = takewhile(lambda mark: not isinstance(mark, HeatMark), reversed(course.marks))
    lost: dict[str, int] = {}
    for mark in since:
        if isinstance(mark, AmendmentMark) and mark.is_loss:
            for zone, _ in mark.amendment.changed_sizes(course.now):
                lost.setdefault(zone, mark.entry)
    return lost


def _left(reason: Reason) -> Words:
    """What the zone comes to if its step is ended as it lies."""
    size, off = said(reason.dimension), reason.beyond._replace(value=abs(reason.beyond.value))
    if reason.why is Why.SHORT and reason.beyond.value < 0.0:
        return say("Ended as it lies, its {} is {:±} short.", size, off)
    return say("Ended as it lies, its {} is too near the {} the drawing allows.", size, reason.limit)
