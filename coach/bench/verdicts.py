"""One verdict for a plan and for a job: by its metal, a skin, a failed test, and in the end its sizes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from math import inf, isfinite
from operator import itemgetter
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

from coach.forms import FormError
from coach.ledger.course import left_as_read
from coach.ledger.forecast import Forecast
from coach.ledger.nominal import Stage
from coach.ledger.plan import finished_form
from coach.ledger.settling import outside_share
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState, Reason, SizeState, state_for_size
from coach.ledger.verdict import Why as Unmet
from coach.ledger.weigh import Cannot, Finding
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import FinishedSize, Spare, least_of
from coach.operations import operation
from coach.quantities import COVERAGE, Figure, Limits, Words, run_on, say

if TYPE_CHECKING:
    from coach.bench.replay import JobState

Why: TypeAlias = Reason | Words
"""Why it stands so: the size that decides, or words."""

Read: TypeAlias = Mapping[tuple[str, str], Figure | None]
"""What was read and not worked since, by zone and dimension; None where it is no part of the metal."""

#: Metal to spare is cut off, or left: it makes a job tight, and no worse before its size is measured
#: (judgement).
_LOST_BY_TOO_MUCH: Final = 0.15

_ALL_DONE: Final = "every step is done, and "
_AS_DRAWN: Final = "every size is within the drawing"
_AS_RECKONED: Final = "what was measured is within the drawing; {} {} only reckoned"


class Settled(NamedTuple):
    """A size that no step ahead works any more, and what it counts for."""

    chance: float
    size: FinishedSize
    to_come: bool  # whether heats ahead change it still

    @property
    def words(self) -> Words:
        """How it lies to its limits."""
        return self.size.words(to_come=self.to_come)


def how_it_stands(
    found: Forecast | None,
    trouble: Words,
    findings: Sequence[Finding],
    settled: Iterable[Settled],
    worries: Sequence[Words],
) -> tuple[float, PlanState, Why]:
    """The chance, the verdict and its reason while there are steps ahead.

    Args:
        found: how the rest is expected to go; None where it cannot be reckoned.
        trouble: why it cannot.
        findings: what the metal cannot do in the steps ahead.
        settled: the sizes that no step ahead works any more, each with its chance.
        worries: a failed test that nothing ahead mends, a grave doubt, or a skin deeper than the stone goes.
    """
    if found is None or trouble:
        return 0.0, PlanState.OFF_PLAN, trouble
    cannot = next((one for one in findings if one.what is not Cannot.REMOVE_SKIN), None)
    if cannot is not None:
        return 0.0, PlanState.OFF_PLAN, cannot.placed
    chance, verdict = found.chance if isfinite(found.chance) else 0.0, found.state
    reason: Why = found.reason
    least = min(settled, key=itemgetter(0), default=None)
    # What was measured is told rather than the metal that it speaks of.
    of_it = (
        least is not None
        and least.size.measured
        and isinstance(reason, Reason)
        and reason.why is Unmet.SHORT
        and reason.zone == least.size.zone
    )
    if least is not None and least.chance < ON_PLAN_CHANCE and (least.chance < chance or of_it):
        called = state_for_size(least.chance, least.size.state)
        was = verdict
        verdict = max(called, was, key=list(PlanState).index)
        # A size that nobody measured, and that may yet be inside, is not asked for before what is surely out.
        asks = isinstance(reason, Reason) and reason.measure and reason.why is not Unmet.NEAR
        asks = asks and was is not PlanState.ON_PLAN
        reason = reason if asks or (verdict is was and not of_it) else least.words
    chance = min(chance, least.chance if least is not None else 1.0)
    worry = next((one for one in worries if one), None)
    if verdict is PlanState.ON_PLAN and worry is not None:
        verdict, reason = PlanState.TIGHT, worry
    return chance, verdict, reason


def as_read(state: JobState, sizes: Iterable[FinishedSize], read: Read) -> tuple[FinishedSize, ...]:
    """The sizes of a job's drawing, those that no step works any more as they were read.

    What the steps ahead only make bigger comes out no smaller than it was read, what they only make smaller
    no bigger.
    """
    stages, left = stages_ahead(state), _left_as_read(state)
    found = []
    for size in sizes:
        last = read.get((size.zone, size.dimension))
        ahead = stages[1:] if (size.zone, size.dimension) in left else stages
        if last is not None and _is_worked(size, ahead):
            gets_less = _one_way(size, ahead)
            last = _once_heated(last, size, stages[1:])
            further_mm = size.expected.value - last.value
            further_mm = -further_mm if gets_less else further_mm
            # As it was read, unless the work still to come surely takes it further.
            as_it_was = gets_less is not None and further_mm < COVERAGE * (size.expected.doubt or 0.0)
            found.append(size.at(last, size.wanted.limits) if as_it_was else size)
        elif last is None:
            found.append(size)
        else:
            # What is believed of it has that reading in it, and all that was known besides. The heats ahead
            # take their scale off it still.
            doubt = min(last.doubt or 0.0, size.expected.doubt or inf)
            last = _once_heated(last, size, stages[1:])
            found.append(size.at(last._replace(doubt=doubt), size.wanted.limits))
    return tuple(found)


def as_rows(spares: Iterable[Spare], sizes: Iterable[FinishedSize], known: Read) -> tuple[Spare, ...]:
    """What there is to spare; in a size that was read, and is known by that, what that comes out at."""
    read = {of: size for size in sizes if (of := (size.zone, size.dimension)) in known}
    return tuple(
        one._replace(spare=size.expected._replace(value=size.expected.value - least_of(size.wanted.limits)))
        if (size := read.get((one.zone, one.dimension))) is not None
        and (size.expected.doubt or 0.0) <= (one.spare.doubt or 0.0)
        else one
        for one in spares
    )


def settled_sizes(state: JobState, sizes: Iterable[FinishedSize], read: Read) -> Iterator[Settled]:
    """The sizes of a job's drawing that no step ahead works any more, each with its chance.

    What steps ahead only make bigger, or only smaller, is settled beyond the limit on that side, and counts
    as it was read; but where a step after the one in hand leaves it to the metal, nothing is settled yet.
    One that nobody measured counts by as much as it surely is beyond its limits; so does, while steps are
    ahead, one that its metal will make too long. In the last step it counts as it will once that is done.
    """
    here, *after = stages_ahead(state) or [{}]
    left, is_last = _left_as_read(state), not after
    for size in sizes:
        zone, dimension = size.zone, size.dimension
        later = [one[zone] for one in after if zone in one and one[zone].works(dimension)]
        in_hand = zone in here and here[zone].works(dimension) and (zone, dimension) not in left
        stages = [here[zone], *later] if in_hand else later
        last = read.get((zone, dimension))
        # What runs over its limit stays over, for no work makes a section bigger again.
        runs_over = size.take_up and size.state is SizeState.OVER
        if is_last and not size.measured and not stages:
            yield Settled(size.chance, size, to_come=False)
        elif (runs_over and later) or (not size.measured and (runs_over or not stages)):
            beyond_mm = size.off.value if size.state is not SizeState.GOOD else 0.0
            share = outside_share(beyond_mm, size.expected.doubt or 0.0)
            lost = 1.0 - size.chance
            if runs_over:
                lost -= _too_much_share(state, size) * max(0.0, lost - _LOST_BY_TOO_MUCH)
            if share > 0.0:
                yield Settled(1.0 - share * lost, size, to_come=bool(stages) or _changes(size, last))
        elif size.measured and not stages:
            yield Settled(size.chance, size, to_come=_changes(size, last))
        if size.measured and stages and last is not None:
            gets_less = _one_way(size, (here if in_hand else {}, *after))
            if gets_less is not None:
                limits = size.wanted.limits
                low, high = (limits.low, inf) if gets_less else (-inf, limits.high)
                last = _once_heated(last, size, after)
                one_sided = size.at(last, Limits(limits.nominal, low, high, limits.stated))
                yield Settled(one_sided.chance, one_sided, to_come=True)


def stages_ahead(state: JobState) -> list[Mapping[str, Stage]]:
    """What each step does to the zones, from the one in hand on."""
    return [state.plan.by_step[step.number] for step in state.plan.recipe.steps[len(state.records) :]]


def _left_as_read(state: JobState) -> frozenset[tuple[str, str]]:
    course = state.course()
    return left_as_read(state.plan, course) if course is not None else frozenset()


def _is_worked(size: FinishedSize, ahead: Iterable[Mapping[str, Stage]]) -> bool:
    return any(size.zone in one and one[size.zone].works(size.dimension) for one in ahead)


def _one_way(size: FinishedSize, ahead: Sequence[Mapping[str, Stage]]) -> bool | None:
    """Whether the steps from the one in hand on only make a size smaller; False where only bigger.

    None where they do both, where it can be dressed back, and where one after that in hand leaves it to the
    metal.
    """
    here, *after = [one.get(size.zone) for one in ahead]
    stages = [stage for stage in (here, *after) if stage is not None and stage.works(size.dimension)]
    later = [stage for stage in stages if stage is not here]
    ways = {_gets_less(stage, size.dimension) for stage in stages}
    if len(ways) != 1 or any(size.dimension in stage.dressed for stage in stages):
        return None
    return None if any(_leaves_to_metal(stage, size.dimension) for stage in later) else ways.pop()


def _too_much_share(state: JobState, size: FinishedSize) -> float:
    """How much of what a size is over comes of too much metal, not of a section smaller than it is drawn."""
    found = state.forecast()
    if found is None or size.zone not in found.zones:
        return 0.0
    drawn = finished_form(state.plan.recipe, size.zone)
    try:
        would_be = drawn.solved(size.dimension, found.zones[size.zone].volume.value)
    except FormError:
        return 0.0
    too_much_mm = would_be.size_mm(size.dimension) - size.wanted.limits.high
    return min(1.0, max(0.0, too_much_mm / max(size.off.value, 1e-9)))


def _changes(size: FinishedSize, last: Figure | None) -> bool:
    """Whether a size comes out as another than it was read; one that nobody read, too."""
    return last is None or abs(size.expected.value - last.value) > (last.doubt or 0.0)


def _once_heated(last: Figure, size: FinishedSize, after: Iterable[Mapping[str, Stage]]) -> Figure:
    """A size that was read, less the scale of the heats in the steps after the one in hand."""
    heated = [one[size.zone] for one in after if size.zone in one]
    changes = [stage.changes_mm(size.dimension) for stage in heated if not stage.works(size.dimension)]
    return last._replace(value=last.value + sum(changes))


def _leaves_to_metal(stage: Stage, dimension: str) -> bool:
    return dimension == stage.after.free and not operation(stage.step.operation).FIXES


def _gets_less(stage: Stage, dimension: str) -> bool:
    """Whether a step makes a size that it works smaller, by cutting, grinding or hammering."""
    if dimension == stage.after.free:
        return operation(stage.step.operation).FIXES or stage.shrinks(dimension)
    return dimension not in stage.grows


def asking_to_measure(reason: Why, now: Workpiece, measured: Collection[tuple[str, str]]) -> Why:
    """The reason; where it blames a size that only follows from what was read, with the one to measure.

    That is the size itself, if the piece has it now; else one of its zone that was not read, the one that the
    metal settles before all others. `measured` are those that were read since they were last worked, by zone
    and dimension.
    """
    if not isinstance(reason, Reason) or reason.why not in (Unmet.UNDER, Unmet.OVER, Unmet.NEAR):
        return reason
    zone, state = reason.zone, now.zones[reason.zone]
    read = {state.leader(dimension) for of, dimension in measured if of == zone}
    blamed = state.leader(reason.dimension)
    if not read or blamed in read or state.laid_on is not None:
        return reason
    has = state.shape.dimensions
    unread = [name for name in (state.free, *has) if state.leader(name) not in read]
    decides = blamed if blamed in has else next(iter(unread), "")
    return reason._replace(measure=f"{zone}.{decides}" if decides else "")


def of_finished(
    sizes: Sequence[FinishedSize], worry: Words, *, finished: bool = True
) -> tuple[float, PlanState, Why]:
    """A tool that nothing shapes any more is what it is: its sizes count, not what its metal might have made.

    What was measured and is not inside is told before what nobody has measured; with it what is still to be
    put right.
    """
    unsure = [size for size in sizes if size.chance < ON_PLAN_CHANCE]
    if not unsure:
        chance, unread = min(size.chance for size in sizes), sum(not size.measured for size in sizes)
        told = (
            (_AS_RECKONED, unread, f"size{' was' if unread == 1 else 's were'}") if unread else (_AS_DRAWN,)
        )
        as_drawn = say(*((_ALL_DONE if finished else "") + told[0], *told[1:]))
        return chance, *((PlanState.TIGHT, worry) if worry else (PlanState.ON_PLAN, as_drawn))
    worst = min(unsure, key=lambda size: (not size.measured, size.chance))
    states = (state_for_size(size.chance, size.state) for size in unsure)
    verdict = max(states, key=list(PlanState).index)
    more = len(unsure) - 1
    others = f"{more} more size{' is' if more == 1 else 's are'} not surely inside" if more else ""
    words = (worst.words(to_come=False), others, worry)
    return min(size.chance for size in unsure), verdict, run_on(words, "; ")
