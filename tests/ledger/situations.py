"""Jobs that have gone wrong in one way each, as the remedies see them."""

from __future__ import annotations

from collections.abc import Sequence

from coach.ledger import remedies
from coach.ledger.amended import amended_plan, amended_workpiece
from coach.ledger.course import AmendmentMark, HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.remedies import Failed, Idea, Offer, Situation, Stands
from coach.ledger.skinning import Grinding, Skin
from coach.ledger.stepping import step_on
from coach.ledger.verdict import PlanState, state_for_size
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, at_stock
from coach.recipe.reader import read_recipe
from tests.ledger.recipes import planned


def heats(count: int) -> list[Mark]:
    """So many heats marked."""
    return [HeatMark(100 + n) for n in range(count)]


def read(**sizes_mm: float) -> list[Mark]:
    """Sizes read cold by calliper and stood by, as strap__length=219."""
    marks: list[Mark] = []
    for name, size_mm in sizes_mm.items():
        zone, _, dimension = name.partition("__")
        reading = Reading(zone, dimension, size_mm, "calliper")
        marks.append(ReadingMark(200 + len(marks), reading, insisted=True))
    return marks


def short_skin(steel: str, zone: str, step: int, dimension: str, ground_mm: float, needed_mm: float) -> Skin:
    """A steel whose skin is deeper than what a step ahead grinds off it: on one face, a tenth sound steel."""
    deep_mm = needed_mm - 0.1
    return Skin(steel, zone, "C80", deep_mm, deep_mm, Grinding(step, deep_mm, dimension, ground_mm, 1))


def standing_at(
    plan: Plan,
    marks: Sequence[Mark] = (),
    step: int = 1,
    *,
    start: Workpiece | None = None,
    failed: Sequence[Failed] = (),
) -> Situation:
    """A job at a step, the steps before it done as planned, with these marks in the step in hand."""
    if start is None:
        start = at_stock(plan)
        for done in plan.recipe.steps[: step - 1]:
            start = step_on(plan, start, done)
    steps = plan.recipe.steps
    course = follow(plan, start, steps[step - 1], marks, finished=False) if step <= len(steps) else None
    found = forecast(plan, course, start, step)
    return Situation(
        plan=plan,
        start=start,
        course=course,
        found=found,
        verdict=found.state,
        chance=found.chance,
        heats_so_far=sum(isinstance(mark, HeatMark) for mark in marks),
        failed=tuple(failed),
    )


def gone_wrong(text: str, marks: Sequence[Mark] = (), step: int = 1) -> Situation:
    """The same from a recipe's text."""
    return standing_at(planned(text), marks, step)


def carried_on(plan: Plan, marks: Sequence[Mark], step: int, now: Sequence[Mark] = ()) -> Situation:
    """A job whose first step had these marks, the steps after it done as planned, up to `step`."""
    start = at_stock(plan)
    for done in plan.recipe.steps[: step - 1]:
        first = done.number == 1
        start = follow(plan, start, done, marks, finished=True).now if first else step_on(plan, start, done)
    return standing_at(plan, now, step, start=start)


def as_begun(situation: Situation) -> Plan:
    """The plan before any remedy was taken."""
    return look_back(read_recipe(situation.plan.recipe.text, situation.plan.recipe.source))


def marks_of(situation: Situation) -> tuple[Mark, ...]:
    """What was entered in the step in hand."""
    return situation.course.marks if situation.course is not None else ()


def once_taken(situation: Situation, offer: Offer) -> Situation:
    """The job after a remedy is taken, as a log is replayed."""
    return standing_at(
        amended_plan(situation.plan, offer.idea.amendment),
        (*marks_of(situation), AmendmentMark(300, offer.idea.amendment)),
        situation.next_step,
        start=situation.start,
    )


def offers(situation: Situation) -> tuple[Offer, ...]:
    """What can be done, each reckoned by the forecast alone."""

    def if_taken(idea: Idea) -> Stands | None:
        try:
            found = _forecast_if_taken(situation, idea)
        except LedgerError:
            return None
        return _stands(situation.plan, found)

    stands = _stands(situation.plan, situation.found)
    return remedies.offers(situation, stands, if_taken) if stands is not None else ()


def _stands(plan: Plan, found: Forecast) -> Stands | None:
    if found.trouble:
        return None
    return Stands(found.chance, found.state, found.reason, remedies.zones_wrong(found))


def _as_finished(found: Forecast) -> Forecast:
    """The same of a finished tool: it is what its sizes are, and the least sure of them decides."""
    sizes = [size for zone in found.zones.values() for size in zone.sizes]
    worst = min(sizes, key=lambda size: size.chance, default=None)
    if worst is None or found.trouble:
        return found
    states = (state_for_size(size.chance, size.state) for size in sizes)
    return found._replace(chance=worst.chance, state=max(states, key=list(PlanState).index))


def _forecast_if_taken(situation: Situation, idea: Idea) -> Forecast:
    if idea.again:
        fresh = as_begun(situation)
        return forecast(fresh, None, at_stock(fresh), 1)
    plan, course = amended_plan(situation.plan, idea.amendment), situation.course
    if course is None:
        start = amended_workpiece(situation.start, idea.amendment)
        return _as_finished(forecast(plan, None, start, situation.next_step))
    step = plan.recipe.steps[situation.next_step - 1]
    marks = (*course.marks, AmendmentMark(0, idea.amendment))
    course = follow(plan, situation.start, step, marks, finished=False)
    return forecast(plan, course, situation.start, situation.next_step)


def offered(situation: Situation) -> dict[str, Offer]:
    """What is offered, by name, the best first."""
    return {offer.way.name: offer for offer in offers(situation)}


def kinds(situation: Situation) -> set[str]:
    """The kinds of remedy that are offered, by the first two words of their names."""
    return {"-".join(offer.way.name.split("-")[:2]) for offer in offers(situation)}
