"""The sizes of a drawing as they are read, and which of them no step ahead works any more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import hypot, inf
from typing import TYPE_CHECKING, Final, NamedTuple, TypeAlias

from coach.bench.along_a_taper import changed_along, goes_along
from coach.forms import FormError
from coach.ledger.course import left_as_read
from coach.ledger.degrees import outside_share
from coach.ledger.nominal import Stage
from coach.ledger.plan import finished_form
from coach.ledger.verdict import (
    PlanState,
    SizeState,
    Verdict,
    conformance,
    plan_state,
    state_for_size,
)
from coach.ledger.workpiece import size_name
from coach.ledger.zone_forecast import FinishedSize, Spare, least_of, unless_inside
from coach.operations import Does, operation
from coach.quantities import COVERAGE, Figure, Limits, Words

if TYPE_CHECKING:
    from coach.bench.job_state import JobState

Read: TypeAlias = Mapping[tuple[str, str], Figure | None]
"""What was read and not worked since, by zone and dimension; None where it is no part of the metal."""

#: Metal to spare is cut off, or left: it makes a job tight, and no worse before its size is measured
#: (judgement).
_LOST_BY_TOO_MUCH: Final = 0.15

#: A hair, as a share of what is doubtful of a size (judgement).
_HAIR_SHARE: Final = 0.1


class Settled(NamedTuple):
    """A size that no step ahead works any more, and what it counts for."""

    chance: float
    size: FinishedSize
    to_come: bool  # whether heats ahead change it still
    stays: bool = False  # whether it was measured as it stays
    by_gauge: float | None = None  # the chance by what was measured alone, where a hand tells of it too

    @property
    def measured_chance(self) -> float:
        """The chance by what was measured alone."""
        return self.chance if self.by_gauge is None else self.by_gauge

    @property
    def called(self) -> PlanState:
        """What a job is called for it: by what was measured, as a decision on a size is.

        Where that is not sure of it either way, as the chance is with how this hand works to a target.
        """
        by_gauge = state_for_size(self.measured_chance, self.size.state)
        if by_gauge is not PlanState.OFF_PLAN or self.size.is_surely_out:
            return by_gauge
        return max(PlanState.TIGHT, plan_state(self.chance), key=list(PlanState).index)

    @property
    def words(self) -> Words:
        """How it lies to its limits."""
        return self.size.words(to_come=self.to_come)


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
            as_it_was = gets_less is not None and further_mm < sure_mm and not goes_along(size, ahead)
            found.append(_as_told(size.at(last, size.wanted.limits) if as_it_was else size, read))
        elif last is None:
            found.append(size)
        else:
            # As it was read; the heats ahead take their scale off it still.
            last = _once_heated(last, size, stages[1:])
            at_end = size.at(last._replace(doubt=_doubt_beside(last, size.expected)), size.wanted.limits)
            found.append(_as_told(at_end, read))
    return tuple(found)


def _as_told(at_end: FinishedSize, read: Read) -> FinishedSize:
    """A size that was read, inside or outside as it was read where no gauge tells that from what it comes to.

    A trace of scale, or what a belief makes of a reading, brings nothing over its limit by a hair. What was
    read outside and comes inside by more than that is told as it comes.
    """
    last = read.get((at_end.zone, at_end.dimension))
    if last is None or not at_end.measured or abs(at_end.expected.value - last.value) >= (last.doubt or 0.0):
        return at_end
    was = SizeState.of(last.value, at_end.wanted.limits)
    if was is not SizeState.GOOD and at_end.state is SizeState.GOOD:
        limits, size = at_end.wanted.limits, at_end.expected.value
        inside_mm = min(size - limits.low, limits.high - size)
        return (
            at_end if inside_mm > _HAIR_SHARE * (at_end.expected.doubt or 0.0) else at_end._replace(state=was)
        )
    return at_end._replace(state=was)


def _doubt_beside(read: Figure, believed: Figure) -> float:
    """How far a size may be from what was read, by all that is believed of it, the reading included.

    The root of the mean square about the reading: what speaks for another size makes it no surer.
    """
    off = believed.value - read.value
    return min(read.doubt or 0.0, hypot(believed.doubt or inf, off))


def as_rows(spares: Iterable[Spare], sizes: Iterable[FinishedSize], known: Read) -> tuple[Spare, ...]:
    """What there is to spare; in a size that was read, and is known by that, what that comes out at."""
    read = {of: size for size in sizes if (of := (size.zone, size.dimension)) in known}
    return tuple(
        _spare_in(size, one) if (size := read.get((one.zone, one.dimension))) is not None else one
        for one in spares
    )


def _spare_in(size: FinishedSize, by_metal: Spare) -> Spare:
    """What a size that was read has above its least, where it is known the better by that.

    Where it counts as inside it is not short of it.
    """
    spare = by_metal.spare
    if (size.expected.doubt or 0.0) <= (spare.doubt or 0.0):
        spare = size.expected._replace(value=size.expected.value - least_of(size.wanted.limits))
    least_mm = -inf if size.state is SizeState.UNDER else 0.0
    return by_metal._replace(spare=spare._replace(value=max(spare.value, least_mm)))


def settled_sizes(state: JobState, sizes: Iterable[FinishedSize], read: Read) -> Iterator[Settled]:
    """The sizes of a job's drawing that no step ahead works any more, each with its chance.

    What steps ahead only make bigger, or only smaller, is settled beyond the limit on that side, and counts
    as it was read; but where a step after the first of them leaves it to the metal, nothing is settled yet.
    One that nobody measured counts in full from the beginning of the last step, when it can be measured last;
    before that by as much as it surely is beyond its limits. So does, while steps are ahead, one that its
    metal will make too long, for that is cut off as no width is; and always steel that was laid on, which
    nobody can measure any more, also where somebody did: near a limit or not, that is no size of the tool
    any more.
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
            if runs_over and dimension == "length":
                by_far = share if _read_once_forged(state, size) else 0.0
                lost -= (1.0 - by_far) * _too_much_share(state, size) * max(0.0, lost - _LOST_BY_TOO_MUCH)
            if share > 0.0:
                yield Settled(1.0 - share * lost, size, to_come=bool(stages) or _changes(size, last))
        elif size.measured and not stages:
            chance = unless_inside(size) if zone in laid else size.chance
            likely = chance if zone in laid else by_hand_too(state, size)
            if chance < 1.0 or zone not in laid:
                yield Settled(likely, size, to_come=_changes(size, last), stays=True, by_gauge=chance)
        if size.measured and stages and last is not None:
            gets_less = _one_way(size, (here if in_hand else {}, *after))
            if gets_less is not None:
                limits = size.wanted.limits
                low, high = (limits.low, inf) if gets_less else (-inf, limits.high)
                last = _once_heated(last, size, after)
                if gets_less and all(_is_beside_an_edge(stage, dimension) for stage in stages):
                    high = limits.high - sum(stage.changes_mm(dimension) for stage in stages)
                one_sided = size.at(last, Limits(limits.nominal, low, high, limits.stated))
                likely = by_hand_too(state, one_sided)
                yield Settled(likely, one_sided, to_come=True, by_gauge=one_sided.chance)


def by_hand_too(state: JobState, size: FinishedSize) -> float:
    """The chance of a size that was measured, with how this hand works to a target as one more reading of it.

    That a gauge's reading lies outside of a limit is less likely than its doubt alone has it: nineteen sizes
    in twenty are worked inside.
    """
    found, now = state.forecast(), state.now
    if found is None or now is None:
        return size.chance
    leader = now.zones[size.zone].leader(size.dimension)
    stop = found.landed.get(size_name(size.zone, leader))
    if stop is None:
        return size.chance
    return conformance(*stop.beside(size.expected.value, size.expected.doubt or 0.0), size.wanted.limits)


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


def _is_beside_an_edge(stage: Stage, dimension: str) -> bool:
    """Whether a step takes metal off beside an edge: so much of this size as is planned, and no more."""
    return stage.step.does(Does.WORKS_AN_EDGE) and dimension not in stage.step.targets


def _read_once_forged(state: JobState, size: FinishedSize) -> bool:
    """Whether a size was read in the last step of all that forges it, or since."""
    forging = [
        step.number
        for step in state.plan.recipe.steps
        if step.heats
        and (stage := state.plan.by_step[step.number].get(size.zone)) is not None
        and stage.works(size.dimension)
    ]
    return any(
        one.counts and one.mark.reading[:2] == (size.zone, size.dimension)
        for course in state.courses()
        if course.step.number >= max(forging, default=0)
        for one in course.outcomes
    )


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
    runs = stage.after.runs
    if changed_along(stage, dimension) or (runs is not None and dimension in dict(runs.sizes)):
        return stage.changes_mm(dimension) < 0.0
    if dimension == stage.after.free:
        return operation(stage.step.operation).FIXES or stage.shrinks(dimension)
    return dimension not in stage.grows
