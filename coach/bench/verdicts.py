"""One verdict for a plan and for a job: by its metal, a skin, a failed test, and in the end its sizes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from math import inf, isfinite
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

from coach.forms import FormError
from coach.ledger.course import left_as_read
from coach.ledger.degrees import outside_share
from coach.ledger.forecast import Forecast
from coach.ledger.nominal import Stage
from coach.ledger.plan import finished_form
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState, Reason, SizeState, Verdict, state_for_size
from coach.ledger.verdict import Why as Unmet
from coach.ledger.weigh import Cannot, Finding
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import FinishedSize, Spare, least_of, unless_inside
from coach.operations import operation
from coach.quantities import COVERAGE, NOTHING, Figure, Limits, Words, run_on, say

if TYPE_CHECKING:
    from coach.bench.job_state import JobState

Why: TypeAlias = Reason | Words
"""Why it stands so: the size that decides, or words."""

Read: TypeAlias = Mapping[tuple[str, str], Figure | None]
"""What was read and not worked since, by zone and dimension; None where it is no part of the metal."""

#: Metal to spare is cut off, or left: it makes a job tight, and no worse before its size is measured
#: (judgement).
_LOST_BY_TOO_MUCH: Final = 0.15

#: What lies beyond a limit by less than this share of its doubt may as well be inside (judgement).
_AS_WELL_INSIDE: Final = 0.2

_NONE_AT_ODDS: Final[Mapping[tuple[str, str], str]] = MappingProxyType({})

_ALL_DONE: Final = "every step is done, and "
_AS_DRAWN: Final = "every size{} is within the drawing"
_AS_RECKONED: Final = "what was measured{} is within the drawing; {} {} only reckoned"


class Settled(NamedTuple):
    """A size that no step ahead works any more, and what it counts for."""

    chance: float
    size: FinishedSize
    to_come: bool  # whether heats ahead change it still
    stays: bool = False  # whether it was measured as it stays

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
    sizes: Iterable[FinishedSize],
    failed: Words = NOTHING,
    at_odds: Mapping[tuple[str, str], str] = _NONE_AT_ODDS,
) -> tuple[float, PlanState, Why]:
    """The chance, the verdict and its reason while there are steps ahead.

    Args:
        found: how the rest is expected to go; None where it cannot be reckoned.
        trouble: why it cannot.
        findings: what the metal cannot do in the steps ahead.
        settled: the sizes that no step ahead works any more, each with its chance.
        worries: a failed test that nothing ahead mends, a grave doubt, or a skin deeper than the stone goes.
        sizes: the drawing's, as they are told: beside one that comes out outside of it nothing is on plan.
        failed: a failed test that nothing ahead mends, which is told first whatever else is wrong.
        at_odds: sizes that were read against all that is known, each with the one to measure for it.
    """
    if found is None or trouble:
        short = next((one for one in findings if one.what is Cannot.SUFFICE), None)
        return 0.0, PlanState.OFF_PLAN, short.placed if short is not None else trouble
    cannot = next((one for one in findings if one.what is not Cannot.REMOVE_SKIN), None)
    if cannot is not None:
        return 0.0, PlanState.OFF_PLAN, run_on((failed, cannot.placed), "; ")
    chance, verdict = found.chance if isfinite(found.chance) else 0.0, found.state
    reason: Why = found.reason
    settled = tuple(settled)
    least = min(settled, key=lambda one: (one.chance, not one.size.measured), default=None)
    first = least is not None and _is_told_before(least.size, reason)
    if least is not None and least.chance < ON_PLAN_CHANCE and (least.chance < chance or first):
        called = state_for_size(least.chance, least.size.state)
        was = verdict
        verdict = max(called, was, key=list(PlanState).index)
        # A size that nobody measured, and that may yet be inside, is not asked for before what is surely out.
        asks = isinstance(reason, Reason) and reason.measure and reason.why is not Unmet.NEAR
        asks = asks and was is not PlanState.ON_PLAN and not first
        # What was measured and is outside is told before what follows from it and nobody has measured.
        facts = (one.size for one in settled if one is least or (one.stays and not least.size.measured))
        told = asks or (verdict is was and not first) or any(_is_told_of(one, reason) for one in facts)
        reason = reason if told else _reason_of(least, at_odds)
    chance = min(chance, least.chance if least is not None else 1.0)
    worry = next((one for one in worries if one), None)
    if verdict is PlanState.ON_PLAN and worry is not None:
        verdict, reason = PlanState.TIGHT, worry
    outside = [size for size in sizes if size.state is not SizeState.GOOD]
    if verdict is PlanState.ON_PLAN and outside:
        verdict, worst = PlanState.TIGHT, min(outside, key=lambda size: size.chance)
        told = isinstance(reason, Reason) and reason.why is Unmet.FULL and reason.zone == worst.zone
        reason = reason if told else worst.words(to_come=True)
    if failed and verdict is not PlanState.ON_PLAN and reason is not worry:
        reason = _told_after(failed, reason)
    return chance, verdict, reason


def _reason_of(settled: Settled, at_odds: Mapping[tuple[str, str], str]) -> Why:
    """A size that decides; where it was read against what is known, with what is to be measured for it."""
    size = settled.size
    decides = at_odds.get((size.zone, size.dimension), "")
    if not decides or size.state is SizeState.GOOD:
        return settled.words
    why = Unmet.UNDER if size.state is SizeState.UNDER else Unmet.OVER
    return size.reason(why)._replace(measure=decides, is_read=True)


def _told_after(failed: Words, reason: Why) -> Why:
    """A reason with a failed test before it."""
    if isinstance(reason, Reason):
        return reason._replace(before=failed)
    return run_on((failed, reason), "; ")


def _is_told_of(size: FinishedSize, reason: Why) -> bool:
    """Whether the reason is that size, outside of its limits as it is told."""
    return (
        isinstance(reason, Reason)
        and (reason.zone, reason.dimension) == (size.zone, size.dimension)
        and reason.why in (Unmet.UNDER, Unmet.OVER)
        and size.state is not SizeState.GOOD
    )


def _is_told_before(size: FinishedSize, reason: Why) -> bool:
    """Whether a size was measured where the reason only may be so: of metal, or of a size not measured.

    One that is outside, by what was read of others, decides, and is asked for.
    """
    if not size.measured or not isinstance(reason, Reason):
        return False
    is_out = size.state is not SizeState.GOOD
    if reason.why is Unmet.SHORT:
        return is_out or reason.zone == size.zone
    may_be_inside = abs(reason.beyond.value) < _AS_WELL_INSIDE * (reason.beyond.doubt or 0.0)
    return is_out and bool(reason.measure) and (may_be_inside or reason.why is Unmet.NEAR)


def as_read(state: JobState, sizes: Iterable[FinishedSize], read: Read) -> tuple[FinishedSize, ...]:
    """The sizes of a job's drawing, those that no step works any more as they were read.

    What the steps ahead only make bigger comes out no smaller than it was read, what they only make smaller
    no bigger.
    """
    stages, left, to_go = stages_ahead(state), _left_as_read(state), _with_more_to_go(state)
    found = []
    for size in sizes:
        last = read.get((size.zone, size.dimension))
        ahead = stages[1:] if (size.zone, size.dimension) in left else stages
        if last is not None and _is_worked(size, ahead):
            gets_less = _one_way(size, ahead)
            last = _once_heated(last, size, stages[1:])
            further_mm = size.expected.value - last.value
            further_mm = -further_mm if gets_less else further_mm
            # As it was read, unless it has more to go, or the work still to come surely takes it further.
            sure_mm = 0.0 if (size.zone, size.dimension) in to_go else COVERAGE * (size.expected.doubt or 0.0)
            as_it_was = gets_less is not None and further_mm < sure_mm
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
    as it was read; but where a step after the first of them leaves it to the metal, nothing is settled yet.
    One that nobody measured counts in full from the beginning of the last step, when it can be measured last;
    before that by as much as it surely is beyond its limits. So does, while steps are ahead, one that its
    metal will make too long, and always steel that was laid on, which nobody can measure any more; also
    where somebody did: near a limit or not, that is no size of the tool any more.
    """
    here, *after = stages_ahead(state) or [{}]
    left, is_last, laid = _left_as_read(state), not after, laid_on(state)
    for size in sizes:
        zone, dimension = size.zone, size.dimension
        later = [one[zone] for one in after if zone in one and one[zone].works(dimension)]
        in_hand = zone in here and here[zone].works(dimension) and (zone, dimension) not in left
        stages = [here[zone], *later] if in_hand else later
        last = read.get((zone, dimension))
        # What runs over its limit stays over, for no work makes a section bigger again.
        runs_over = size.take_up and size.state is SizeState.OVER
        grows_on = later or (in_hand and not _gets_less(here[zone], dimension))
        if is_last and not (size.measured or stages or zone in laid):
            yield Settled(size.chance, size, to_come=False)
        elif (runs_over and grows_on) or (not size.measured and (runs_over or not stages)):
            beyond_mm = size.off.value if size.state is not SizeState.GOOD else 0.0
            share = outside_share(beyond_mm, size.expected.doubt or 0.0)
            lost = 1.0 - size.chance
            if runs_over:
                lost -= _too_much_share(state, size) * max(0.0, lost - _LOST_BY_TOO_MUCH)
            if share > 0.0:
                yield Settled(1.0 - share * lost, size, to_come=bool(stages) or _changes(size, last))
        elif size.measured and not stages:
            chance = unless_inside(size) if zone in laid else size.chance
            if chance < 1.0 or zone not in laid:
                yield Settled(chance, size, to_come=_changes(size, last), stays=True)
        if size.measured and stages and last is not None:
            gets_less = _one_way(size, (here if in_hand else {}, *after))
            if gets_less is not None:
                limits = size.wanted.limits
                low, high = (limits.low, inf) if gets_less else (-inf, limits.high)
                last = _once_heated(last, size, after)
                one_sided = size.at(last, Limits(limits.nominal, low, high, limits.stated))
                yield Settled(one_sided.chance, one_sided, to_come=True)


def laid_on(state: JobState) -> frozenset[str]:
    """The zones that were laid on another: they can be measured no more."""
    zones = state.now.zones if state.now is not None else {}
    return frozenset(zone for zone, one in zones.items() if one.within is not None and one.parts)


def stages_ahead(state: JobState) -> list[Mapping[str, Stage]]:
    """What each step does to the zones, from the one in hand on."""
    return [state.plan.by_step[step.number] for step in state.plan.recipe.steps[len(state.records) :]]


def _left_as_read(state: JobState) -> frozenset[tuple[str, str]]:
    course = state.course()
    return left_as_read(state.plan, course) if course is not None else frozenset()


def _with_more_to_go(state: JobState) -> frozenset[tuple[str, str]]:
    """The sizes, by zone and dimension, that were read last in the step in hand as having more to go."""
    course = state.course()
    latest = {one.mark.reading[:2]: one for one in course.outcomes} if course is not None else {}
    return frozenset(size for size, one in latest.items() if one.counts and one.verdict is Verdict.MORE_TO_GO)


def _is_worked(size: FinishedSize, ahead: Iterable[Mapping[str, Stage]]) -> bool:
    return any(size.zone in one and one[size.zone].works(size.dimension) for one in ahead)


def _one_way(size: FinishedSize, ahead: Sequence[Mapping[str, Stage]]) -> bool | None:
    """Whether the steps from the one in hand on only make a size smaller; False where only bigger.

    None where they do both, where it can be dressed back, and where one after the first that works it leaves
    it to the metal.
    """
    zone = [one.get(size.zone) for one in ahead]
    stages = [stage for stage in zone if stage is not None and stage.works(size.dimension)]
    later = stages[1:]
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
    """A size that was read, less what the steps after the one in hand take by their scale or their work.

    Where the work leaves it to the metal and makes it less, as an upset does and a lap's weld, it comes out
    as what was read makes it there.
    """
    for stage in (one[size.zone] for one in after if size.zone in one):
        if not stage.works(size.dimension):
            last = last._replace(value=last.value + stage.changes_mm(size.dimension))
        elif _leaves_to_metal(stage, size.dimension) and stage.shrinks(size.dimension):
            last = last._replace(value=_by_the_metal_mm(stage, size.dimension, last.value))
    return last


def _by_the_metal_mm(stage: Stage, dimension: str, size_mm: float) -> float:
    """What a step makes of a size that it leaves to the metal, all else as planned, from what it was."""
    before, after = stage.form_before, stage.form_after
    try:
        more_mm3 = before.with_sizes({dimension: size_mm}).volume_mm3() - before.volume_mm3()
        return after.solved(dimension, after.volume_mm3() + more_mm3).size_mm(dimension)
    except FormError:
        return size_mm


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
    if not read or blamed in read or not state.has_form:
        return reason
    has = state.shape.dimensions
    unread = [name for name in (state.free, *has) if state.leader(name) not in read]
    decides = blamed if blamed in has else next(iter(unread), "")
    return reason._replace(measure=f"{zone}.{decides}" if decides else "")


def of_finished(
    sizes: Sequence[FinishedSize],
    worry: Words,
    let_go: int = 0,
    *,
    laid: Collection[str] = (),
    finished: bool = True,
) -> tuple[float, PlanState, Why]:
    """A tool that nothing shapes any more is what it is: its sizes count, not what its metal might have made.

    What was measured and is not inside is told before what nobody has measured; with it what is still to be
    put right, and how many sizes were let go: they are inside what is allowed, and not as drawn. Of steel
    that was laid on nobody can say more: it counts as it surely is beyond its limits.
    """
    chances = {size.name: unless_inside(size) if size.zone in laid else size.chance for size in sizes}
    unsure = [size for size in sizes if chances[size.name] < ON_PLAN_CHANCE]
    if not unsure:
        chance, unread = min(chances.values()), sum(not size.measured for size in sizes)
        but = f" but the {let_go if let_go > 1 else 'one'} let go" if let_go else ""
        counts = (unread, f"size{' was' if unread == 1 else 's were'}") if unread else ()
        told = (_ALL_DONE if finished else "") + (_AS_RECKONED if unread else _AS_DRAWN)
        as_drawn = say(told, but, *counts)
        return chance, *((PlanState.TIGHT, worry) if worry else (PlanState.ON_PLAN, as_drawn))
    worst = min(unsure, key=lambda size: (not size.measured, chances[size.name]))
    states = (state_for_size(chances[size.name], size.state) for size in unsure)
    verdict = max(states, key=list(PlanState).index)
    more = len(unsure) - 1
    others = f"{more} more size{' is' if more == 1 else 's are'} not surely inside" if more else ""
    words = (worst.words(to_come=False), others, worry)
    return min(chances[size.name] for size in unsure), verdict, run_on(words, "; ")
