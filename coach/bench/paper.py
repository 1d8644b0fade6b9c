"""A job for the wall of the forge: what each step asks to be measured, told before any of it is done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from coach.bench.as_marked import as_marked, marked_so_far
from coach.bench.begun_with import Known, begun_by, known_in
from coach.bench.care import SaidOnce, care_as_it_begins, care_of_first_fire
from coach.bench.gauged import BY_GAUGES, usual_gauge
from coach.bench.job_state import JobState
from coach.bench.planned import Planned, PlannedStep, planned_tool
from coach.bench.standing import FinishedStep, Standing
from coach.forms import label
from coach.ledger.course import Mark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.made_anew import marked_there
from coach.ledger.plan import Plan
from coach.ledger.shop_test_of import shop_test_at
from coach.ledger.wanted_apart import wanted_apart
from coach.ledger.wanting import once_worked, over_from, wanted
from coach.ledger.weighing import kind_of
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, at_stock
from coach.operations import operation
from coach.operations.measures import MARK, PASSED
from coach.quantities import Figure, Limits, Wanted
from coach.quantities.figure import Kind
from coach.recipe.model import Step


class SizeToRead(NamedTuple):
    """One thing that a step asks to be measured or tested, with the box that waits for it."""

    name: str  # as `coach read` takes it: `blade.thickness`
    zone: str
    dimension: str
    kind: Kind
    wanted: Wanted | None  # `null` when nothing is wanted of it
    gauge: str  # what a size of the shop's gauges is read with; else empty
    how: str  # how a test is made; empty for a size
    read: Figure | None = None  # what was read of it last; `null` before that

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


class StepOnPaper(NamedTuple):
    """A step that is to be done, with what it asks to be measured."""

    planned: PlannedStep
    to_read: tuple[SizeToRead, ...]
    heats: int = 0  # how many of its heats are marked already


class JobSheet(NamedTuple):
    """A recipe or a job as it is taken to the forge on paper."""

    job: str  # the job's name; empty of a recipe
    plan: Planned  # as it is now
    care: tuple[SaidOnce, ...]  # what can hurt all day
    done: tuple[FinishedStep, ...]  # the steps of a job that are behind it
    steps: tuple[StepOnPaper, ...]  # those to do, in their order
    at_the_bar: bool  # whether nothing is worked yet, so that the marks are wanted


def recipe_sheet(plan: Plan, known: Iterable[Known] = ()) -> JobSheet:
    """A recipe before it is begun; `known` is what it is begun with of the shop and of the hand."""
    known = tuple(known)
    planned = planned_tool(plan, known)
    steps = tuple(_steps(plan, planned.steps, *_ahead(plan, known)))
    first = (one for one in plan.recipe.steps if one.heats)
    care = care_as_it_begins(plan.recipe)
    if len(care) == 1:
        care = (*care, *care_of_first_fire(plan.recipe, next(first, None), ()))
    return JobSheet("", planned, care, (), steps, at_the_bar=True)


def _ahead(plan: Plan, known: Iterable[Known]) -> tuple[Workpiece, Mapping[int, Workpiece]]:
    """The marked bar, and what can be expected after each step."""
    start = begun_by(at_stock(plan, told_apart=True), known)
    return start, forecast(plan, None, start, 1).after


def job_sheet(state: JobState, standing: Standing) -> JobSheet:
    """A job as far as it has come, and what is left of it."""
    plan, course = state.plan, state.course()
    whole = recipe_sheet(plan, known_in(state.counted.values()))
    done = len(state.records)
    found = state.forecast()
    now = course.now if course is not None else state.now
    if now is None or found is None or course is None:
        steps = whole.steps[done:]
    else:
        steps = tuple(_steps(plan, whole.plan.steps[done:], now, found.after, course.marks))
        read = {one.name: one.reading.size for one in standing.checks if one.reading is not None}
        if steps:
            first = steps[0]
            to_read = tuple(one._replace(read=read.get(one.name)) for one in first.to_read)
            steps = (first._replace(to_read=to_read, heats=standing.heats), *steps[1:])
    at_the_bar = not any(record.heats for record in state.records)
    stands = whole.plan._replace(
        chance=standing.chance,
        verdict=standing.verdict,
        reason=standing.reason,
        will_pass=standing.will_pass,
    )
    plan_told = as_marked(stands, marked_so_far(state))
    return JobSheet(standing.job, plan_told, whole.care, standing.done, steps, at_the_bar)


def _steps(
    plan: Plan,
    planned: Sequence[PlannedStep],
    start: Workpiece,
    after: Mapping[int, Workpiece],
    marks: Sequence[Mark] = (),
) -> Iterator[StepOnPaper]:
    """They begin with the one in hand, of which the `marks` are."""
    before = start
    for one in planned:
        step = plan.recipe.steps[one.step.number - 1]
        now, then = _in_hand(plan, step, before), after.get(step.number)
        yield StepOnPaper(one, tuple(_to_read(plan, step, name, now, then, marks) for name in step.checks))
        before, marks = then or before, ()


def _in_hand(plan: Plan, step: Step, before: Workpiece) -> Workpiece:
    """The workpiece as the bench believes it to be once a step is in hand, its heats still to come."""
    try:
        return follow(plan, before, step, (), finished=False).now
    except LedgerError:  # the metal cannot make it: what is wanted is told all the same
        return before


def _to_read(
    plan: Plan, step: Step, name: str, now: Workpiece, then: Workpiece | None, marks: Sequence[Mark]
) -> SizeToRead:
    """One of them; a size that nobody has read is asked for as the step's end is to leave it."""
    zone, dimension = name.split(".", 1)
    kind = kind_of(step, dimension)
    # A mark is where the bar has it while it is made, and from the piece's own end later.
    here = then if then is not None and then.zones[zone].has_form and dimension != MARK else now
    limits = _limits(plan, step, zone, dimension, kind, here)
    limits = once_worked(plan, step, zone, dimension, limits) if here is then else limits
    limits = marked_there(limits, plan, here, step, (zone, dimension), marks)
    return SizeToRead(
        name=name,
        zone=zone,
        dimension=dimension,
        kind=kind,
        wanted=Wanted(limits, kind) if limits is not None else None,
        gauge=usual_gauge(plan.recipe, step, zone, dimension) if kind in BY_GAUGES else "",
        how=shop_test_at(plan, step, zone, dimension).how if kind is Kind.TEST else "",
    )


def _limits(plan: Plan, step: Step, zone: str, dimension: str, kind: Kind, now: Workpiece) -> Limits | None:
    """What a size is judged by once the step is in hand and nothing of it is read, as at the bench."""
    if kind is Kind.MASS:
        return None
    if kind is Kind.TEST:
        return PASSED
    if dimension != MARK and dimension in operation(step.operation).EXTRAS:
        return wanted_apart(plan, step, zone, dimension)
    if dimension not in (*now.zones[zone].shape.dimensions, MARK):
        return None
    limits, _ = wanted(plan, now, step, zone, dimension)
    over = over_from(plan, step, zone, dimension, limits) if limits is not None else None
    if over is not None and limits is not None and limits.nominal > over.high:
        return over
    return limits
