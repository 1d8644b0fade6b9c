"""How long the rest of a job takes at a smith's pace, how far it comes by an hour, where it may rest."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from functools import partial
from itertools import pairwise
from math import exp, isfinite, log, sqrt
from typing import Final, NamedTuple

from coach.bench.blows_a_heat import BlowsAHeat
from coach.bench.entering import EntryFault
from coach.bench.happened import moment_of
from coach.bench.job_state import JobState
from coach.bench.own_blows import blows_a_heat
from coach.bench.resting import may_rest_after
from coach.bench.righting import Right, rights
from coach.ledger.course import HeatMark, heats_in
from coach.ledger.quenched_instead import quenched_instead
from coach.log.entries import Entry
from coach.log.kinds.heat import Heat
from coach.log.kinds.late_heat import LateHeat
from coach.log.kinds.shop_known import ShopKnown
from coach.operations.does import Does, HeatKind
from coach.quantities.figure import Figure, Kind, Span
from coach.quantities.moments import on_the_wall
from coach.quantities.words import Words, run_on, say
from coach.recipe.model import Step

#: A smith takes 6 to 12 heats an hour, 5 to 10 min each, all but one in twenty (common practice, no source).
BOOK_S: Final = 60.0 * sqrt(5.0 * 10.0)
BOOK_SPREAD: Final = log(10.0 / 5.0) / 4.0
#: One heat takes longer or shorter than another of the same smith by about this, as a logarithm (judgement).
HEAT_SPREAD: Final = 0.4
#: Heats that lie further apart had something else between them (judgement).
_LONGEST: Final = timedelta(minutes=30)
#: Heats entered sooner one after another were counted afterwards, not forged (judgement).
_SHORTEST: Final = timedelta(minutes=1)
_COVERAGE: Final = 1.645  # nine in ten lie inside
_HOUR: Final = re.compile(r"(?P<hour>\d{1,2}):(?P<minute>\d\d)", re.ASCII)


class Pace(NamedTuple):
    """How long one heat takes."""

    a_heat: Figure  # time, with the doubt of its mean
    rests_on: int  # so many heats of this job; 0 for the usual alone
    spread: float  # standard deviation of the mean's logarithm
    of_shop: int = 0  # so many earlier jobs taught what it began with; 0 where that is the usual
    heats_for_one: float = 1.0  # so many heats this shop takes where one is planned
    heats_of_shop: int = 0  # so many earlier jobs taught that; 0 where none did

    def of(self, heats: float) -> Span:
        """How long so many heats take, nine times in ten."""
        if not heats:
            return Span(0.0, 0.0, Kind.TIME)
        middle, doubt = log(self.a_heat.value * heats), sqrt(self.spread**2 + HEAT_SPREAD**2 / heats)
        return Span(exp(middle - _COVERAGE * doubt), exp(middle + _COVERAGE * doubt), Kind.TIME)


class StepAhead(NamedTuple):
    """One step that is still to be done."""

    number: int
    title: str
    heats: int  # of it that are to come, those of a treatment counted in
    in_all: Span  # from now to its end, by forging heats and soaks alone
    may_rest: bool  # whether the job may be put down after it
    needs: Words  # what must be ready for it
    blows: Span | None = None  # how many those heats take; `null` where nobody has counted any


class BlowsAhead(NamedTuple):
    """The blows that a heat of one operation takes."""

    operation: str  # as a recipe calls it
    a_heat: BlowsAHeat


class TimeAhead(NamedTuple):
    """The rest of a job."""

    pace: Pace
    heats: int  # to come, those of treatments counted in
    in_all: Span  # how long they and the soaks take
    uncounted: int  # steps whose time is not known: cold work, treatments without a soak that is said
    steps: tuple[StepAhead, ...]
    by: str  # the hour asked for, as it is typed; "" for none
    left: Figure | None  # the time until then
    surely: int  # the last step that is done by then nine times in ten, as far as times are known; 0 for none
    perhaps: int  # the last one that may be
    rest_after: int  # the last safe place to rest that is surely reached; 0 for none ahead
    to_right: tuple[Right, ...] = ()  # what is to be put right besides: no step ahead does it
    surely_besides: int = 0  # the last step surely done by then, were that right at once; 0 for none
    blows: tuple[BlowsAhead, ...] = ()  # a heat of each operation ahead of which blows were counted


def time_ahead(state: JobState, now: datetime, by: str = "") -> TimeAhead:
    """The rest of a job; raises EntryFault where the hour cannot be read or everything is done."""
    recipe, step = state.plan.recipe, state.step
    if step is None:
        raise EntryFault("Every step of this job is done: nothing is ahead.")
    known = {one.body.what: one.body for one in state.counted.values() if isinstance(one.body, ShopKnown)}
    pace = pace_of(times_of_heats(state.counted.values(), treated_in(state)), known.get("pace"))
    if (more := known.get("heats")) is not None:
        pace = pace._replace(heats_for_one=more.value, heats_of_shop=more.jobs)
    instead, steps = _instead(state), [*recipe.steps]
    if instead is not None:  # what is not to be quenched takes no heat, no soak and no bath
        steps[step.number - 1] = step._replace(heats=0, targets={}, quench="", keep=())
    blows = {one.number: blows_a_heat(state, one.operation) for one in steps[step.number - 1 :]}
    ahead = list(_ahead(steps, step.number, partial(_taken, state), pace, blows))
    heats = sum(one.heats for one in ahead)
    right = tuple(one for one in rights(state) if instead is None or one.step != step.number)
    whole = steps[step.number - (instead is None) :]
    uncounted = sum(not (_is_counted(one) or _soak_s(one)) for one in whole)
    left = _until(by, now) if by else None
    surely = besides = perhaps = rest = 0
    known_so_far = True
    for one in ahead if left is not None else ():
        span = one.in_all
        assert left is not None
        # A heat to cool in ash or air takes a time that nobody has said: behind it nothing is sure.
        known_so_far = known_so_far and not _cools_unsaid(recipe.steps[one.number - 1])
        if known_so_far and span.high <= left.value:
            besides = one.number
            if not right:  # nobody has said how long that takes
                surely = one.number
                rest = one.number if one.may_rest else rest
        if span.low <= left.value:
            perhaps = one.number
    in_all = ahead[-1].in_all
    hour = by.strip()
    of_each = {one.operation: blows[one.number] for one in steps[step.number - 1 :]}
    each = tuple(BlowsAhead(name, found) for name, found in of_each.items() if found is not None)
    return TimeAhead(
        pace,
        heats,
        in_all,
        uncounted,
        tuple(ahead),
        hour,
        left,
        surely,
        perhaps,
        rest,
        right,
        besides,
        each,
    )


def _instead(state: JobState) -> Step | None:
    """The step that quenches in place of the one in hand; None where that is to be quenched."""
    course = state.course()
    return quenched_instead(state.plan.recipe, course) if course is not None else None


def pace_of(own: Sequence[float], known: ShopKnown | None = None) -> Pace:
    """The time that a heat takes: the usual, and what the job's own say of it, weighed by their doubts.

    The own are `times_of_heats`.

    Where the pace of the shop is known, that is the usual.

    Both are held as logarithms, each by its variance: Gelman et al., Bayesian Data Analysis, 3rd ed. (2013),
    section 2.5, normal mean with known variance (from memory).
    """
    begun, spread_begun = log(BOOK_S), BOOK_SPREAD
    if known is not None:
        begun, spread_begun = log(known.value), known.doubt / known.value
    weight = 1.0 / spread_begun**2 + len(own) / HEAT_SPREAD**2
    mean = (begun / spread_begun**2 + sum(own) / HEAT_SPREAD**2) / weight
    spread = sqrt(1.0 / weight)
    of_shop = known.jobs if known is not None else 0
    return Pace(Figure(exp(mean), Kind.TIME, exp(mean) * spread), len(own), spread, of_shop)


def treated_in(state: JobState) -> frozenset[int]:
    """The entries of the heats of treatments: what cools in air or ash meanwhile is no pace of forging."""
    steps = [(one.step, one.marks) for one in state.records]
    steps += [(state.step, tuple(state.marks))] if state.step is not None else []
    return frozenset(
        mark.entry
        for step, marks in steps
        if step.heat_kind is HeatKind.TREATMENT
        for mark in marks
        if isinstance(mark, HeatMark)
    )


def times_of_heats(counted: Iterable[Entry], treated: Collection[int] = ()) -> list[float]:
    """The logarithms of the seconds between a job's heats, where nothing else came between.

    `counted` are the entries that count: a heat that was struck out was none, and parts no other two.
    A treatment's heats, by the numbers of their entries, stand between others and are no pace themselves.
    """
    heats = (one for one in counted if isinstance(one.body, Heat) and _is_timed(one.body))
    times = sorted((datetime.fromisoformat(moment_of(one)), one.number in treated) for one in heats)
    pairs = [(one, other) for one, other in pairwise(times) if not (one[1] or other[1])]
    apart = [after - before for (before, _), (after, _) in pairs]
    return [log(one.total_seconds()) for one in apart if _SHORTEST <= one <= _LONGEST]


def _is_timed(heat: Heat) -> bool:
    return not isinstance(heat, LateHeat) or heat.timed


def _ahead(
    steps: Sequence[Step],
    number: int,
    taken: Callable[[int], int],
    pace: Pace,
    blows: Mapping[int, BlowsAHeat | None],
) -> Iterator[StepAhead]:
    heats, soaks_s = 0, 0.0
    for step in steps[number - 1 :]:
        left = max(0, step.heats - taken(step.number))
        heats += left if _is_counted(step) else 0
        soaks_s += _soak_s(step)
        forging, safe = pace.of(heats * pace.heats_for_one), may_rest_after(steps, step.number)
        in_all = Span(forging.low + soaks_s, forging.high + soaks_s, Kind.TIME)
        struck = blows[step.number] if left else None
        so_many = None if struck is None else struck.of(left)
        yield StepAhead(step.number, step.title, left, in_all, safe, _needs(step), so_many)


def _taken(state: JobState, number: int) -> int:
    """Heats marked in the step in hand, or in a later one that waits."""
    in_hand = state.step is not None and state.step.number == number
    marks = state.marks if in_hand else state.waiting.get(number, ())
    return heats_in(marks)


def _is_counted(step: Step) -> bool:
    return step.heats > 0 and step.heat_kind in (HeatKind.FORGING, HeatKind.WELDING)


def _cools_unsaid(step: Step) -> bool:
    """Whether a step lets the metal cool slowly, as to normalise or anneal it, and says no time for it."""
    slowly = step.heat_kind is HeatKind.TREATMENT and not step.does(Does.QUENCHES)
    return step.heats > 0 and slowly and not _soak_s(step)


def _soak_s(step: Step) -> float:
    """The least time that a step holds its heat; 0 where it says none."""
    soak = step.targets.get("soak")
    return soak.low if soak is not None and isfinite(soak.low) else 0.0


def _needs(step: Step) -> Words:
    """What lies ready when a step is begun: its flux, its quench, the steel laid on, what stays in."""
    needs = [f"flux: {step.flux}" if step.flux else "", f"quench: {step.quench}" if step.quench else ""]
    needs += [f"the {step.lays}" if step.lays else "", *step.keep]
    return run_on([say("{}", one) for one in needs if one], "; ")


def _until(by: str, now: datetime) -> Figure:
    found = _HOUR.fullmatch(by.strip())
    wanted = "type an hour of today such as 17:00."
    if found is None or int(found["hour"]) > 23 or int(found["minute"]) > 59:
        raise EntryFault(f"{by[:20]!r} is no hour: {wanted}")
    here = on_the_wall(now)
    then = here.replace(hour=int(found["hour"]), minute=int(found["minute"]), second=0, microsecond=0)
    if then <= here:
        raise EntryFault(f"{by.strip()} is over today: {wanted}")
    return Figure((then - here).total_seconds(), Kind.TIME)
