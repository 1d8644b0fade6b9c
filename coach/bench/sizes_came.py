"""What was drawn and asked, held against what was read of it last, size by size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from enum import StrEnum
from typing import NamedTuple, TypeAlias

from coach.bench.happened import moment_of
from coach.bench.job_state import JobState
from coach.bench.settled import Read, stages_ahead
from coach.bench.treated import treats
from coach.forms import label
from coach.ledger.course import Course, Outcome
from coach.ledger.left_over import left_over
from coach.ledger.verdict import ON_PLAN_CHANCE, SizeState, Verdict, beyond_surely, conformance
from coach.ledger.weighing import kind_of
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize
from coach.log.kinds.way_back import WayBackTaken
from coach.operations import Does, operation
from coach.operations.gauges import BY_EYE
from coach.operations.measures import MARK
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Figure, Kind, Limits, Wanted, Words
from coach.recipe.model import Step, spoken_of

#: What a step asks for that is no part of the metal, a mark and a test of the shop apart.
_APART = (Kind.LENGTH, Kind.GAP, Kind.ANGLE, Kind.HARDNESS, Kind.TEMPERATURE, Kind.TIME)
#: What is answered: a zone, a size of it, and the step where each keeps its own answer, else 0.
_Of: TypeAlias = tuple[str, str, int]
#: What a heat treatment is measured by.
_OF_TREATMENT = (Kind.HARDNESS, Kind.TEMPERATURE, Kind.TIME)


class SizeVerdict(StrEnum):
    """How a size came, against what was wanted of it."""

    WITHIN = "within"
    NOT_SURE = "not sure"  # too near a limit for what it was read with
    UNDER = "under"
    OVER = "over"
    LET_GO = "let go"  # not as first drawn, but within what a way back allowed
    NOT_MEASURED = "not measured"  # since it was last worked
    TO_COME = "to come"  # a step ahead still works it
    AS_READ = "as read"  # nothing was wanted of it


class WhenRead(NamedTuple):
    """The reading that a size goes by."""

    entry: int  # its number in the log
    step: int  # the step that it was taken in
    at: str  # when it was taken
    gauge: str  # what it was read with
    size: Figure  # as it was read, cold


class LetGo(NamedTuple):
    """What made another size of one that was drawn."""

    entry: int  # its entry's number
    step: int  # the step then in hand
    title: Words  # what was done
    haft: bool  # whether it was worked to a haft that is there, which lets nothing go


class SizeCame(NamedTuple):
    """One size as it was wanted and as it came."""

    name: str  # `blade.length`
    zone: str
    dimension: str
    step: int  # the step that asks for it; 0 for a size of the drawing
    wanted: Wanted | None  # as drawn: as the job began, or since it was drawn anew; `null` for nothing
    allowed: Wanted | None  # what is allowed now, where a way back or a haft changed that
    came: Figure | None  # cold, less the scale since it was read; `null` when it was not measured since
    reckoned: Figure | None  # what it is believed to be where it was not measured
    beyond: Figure | None  # how far it is, or seems, past a limit; `null` inside
    verdict: SizeVerdict
    read: WhenRead | None  # `null` when it was not measured
    let_go: LetGo | None  # `null` when it is as drawn
    questioned: WhenRead | None = None  # what was read last, where that is not believed; `null` otherwise

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)

    def label_among(self, others: Iterable[SizeCame]) -> str:
        """The same with its step, where another is called alike: a quench and its temper have heats both."""
        alike = sum(one.name == self.name for one in others)
        return f"{self.label}, step {self.step}" if alike > 1 else self.label


class Counted(NamedTuple):
    """How many sizes came as drawn, of those that are due; every place that counts them counts so."""

    as_drawn: int  # surely within what was drawn or asked for
    asked: int  # of so many, those to come not counted


def counted_sizes(sizes: Iterable[SizeCame]) -> Counted:
    """The sizes of the drawing, or what was asked for besides, counted."""
    apart = (SizeVerdict.TO_COME, SizeVerdict.AS_READ)
    due = [one.verdict for one in sizes if one.verdict not in apart]
    return Counted(due.count(SizeVerdict.WITHIN), len(due))


def sizes_drawn(state: JobState, found: Sequence[FinishedSize], measured: Read) -> Iterator[SizeCame]:
    """Every size of the drawing that the finished tool has, in its order.

    Args:
        state: where the job stands.
        found: the sizes as they are expected; empty where the reckoning stopped.
        measured: what was read and not worked since.
    """
    expected = {(one.zone, one.dimension): one.expected for one in found}
    inside = {(one.zone, one.dimension) for one in found if one.state is SizeState.GOOD}
    ahead, changed = stages_ahead(state), changed_by_ways(state)
    read, worked_since = _last_read(state), _last_read(state, worked_since=True)
    doubted = _questioned(state)
    left = {zone for piece in state.plan.recipe.pieces.values() for zone in piece.finished_zones}
    now, began = state.plan.recipe.drawing, state.first_plan.recipe.drawing
    for zone, drawn_now in now.items():
        if zone not in left or state.plan.recipe.piece_of(zone).given_up:
            continue  # it is split, and the tool has its branches; or it is made no more
        drawn = began.get(zone, drawn_now)
        drawn = drawn if drawn.shape == drawn_now.shape else drawn_now  # it is another form by now
        for dimension in spoken_of(drawn.shape, drawn.limits):
            size = zone, dimension
            first = state.redrawn.get(size, drawn.limits[dimension])
            limits = drawn_now.limits[dimension]
            to_come = any(zone in one and one[zone].works(dimension) for one in ahead)
            last, let_go = measured.get(size), changed.get(size)
            came = None if last is None or to_come else expected.get(size, last)
            if came is None:
                verdict = SizeVerdict.TO_COME if to_come else SizeVerdict.NOT_MEASURED
            else:
                drawn_to = limits if let_go is not None and let_go.haft else first
                verdict = verdict_of(came, drawn_to, limits)
            outside = came is not None and size not in inside and not limits.contains(came.value)
            yield SizeCame(
                name=f"{zone}.{dimension}",
                zone=zone,
                dimension=dimension,
                step=0,
                wanted=Wanted(first),
                allowed=Wanted(limits) if limits != first else None,
                came=came,
                reckoned=expected.get(size) if came is None else None,
                beyond=_beyond(came, limits) if came is not None and outside else None,
                verdict=verdict,
                read=None if to_come else (worked_since if came is None else read).get(size),
                let_go=let_go if limits != first else None,
                questioned=None if to_come else doubted.get(size),
            )


def verdict_of(came: Figure, first: Limits, limits: Limits) -> SizeVerdict:
    """How a size came, against what was first drawn and what is allowed now."""
    for drawn, verdict in ((first, SizeVerdict.WITHIN), (limits, SizeVerdict.LET_GO)):
        if conformance(came.value, came.doubt or 0.0, drawn) >= ON_PLAN_CHANCE:
            return verdict
    if not beyond_surely(came.value, came.doubt or 0.0, limits):
        return SizeVerdict.NOT_SURE
    return SizeVerdict(SizeState.of(came.value, limits).value)


def _beyond(came: Figure, limits: Limits) -> Figure:
    beyond = max(limits.low - came.value, came.value - limits.high)
    kind = Kind.TEMPERATURE_CHANGE if came.kind is Kind.TEMPERATURE else came.kind
    return came._replace(value=beyond, kind=kind)


def changed_by_ways(state: JobState) -> dict[tuple[str, str], LetGo]:
    """What last made another of each size that was drawn, by zone and dimension."""
    found = {}
    for entry in state.counted.values():
        if isinstance(way := entry.body, WayBackTaken):
            told = LetGo(entry.number, way.step, way.title, way.name == WayBackTaken.TO_HAFT)
            found.update({(new.zone, new.dimension): told for new in way.amendment.limits})
    return found


def _last_read(state: JobState, *, worked_since: bool = False) -> dict[tuple[str, str], WhenRead]:
    """The last reading of each size that counts, or that was believed until a heat worked the size."""
    return {
        (outcome.mark.reading.zone, outcome.mark.reading.dimension): _when(state, course, outcome)
        for course in state.courses()
        for outcome in course.outcomes
        if outcome.counts or (worked_since and not outcome.questioned)
    }


def _questioned(state: JobState) -> dict[tuple[str, str], WhenRead]:
    """The last reading of each size, where it is questioned still."""
    last = {(one.mark.reading[:2]): (course, one) for course in state.courses() for one in course.outcomes}
    return {of: _when(state, *at) for of, at in last.items() if at[1].questioned and not at[1].old}


def _when(state: JobState, course: Course, outcome: Outcome) -> WhenRead:
    number, reading = outcome.mark.entry, outcome.mark.reading
    kind, surprise = kind_of(course.step, reading.dimension), outcome.surprise
    size = Figure(reading.size_mm, kind)
    if surprise is not None:
        size = Figure(surprise.cold.size_mm, kind, surprise.cold.doubt_mm)
    return WhenRead(number, course.step.number, moment_of(state.counted[number]), reading.gauge, size)


def sizes_apart(state: JobState) -> Iterator[SizeCame]:
    """What the steps up to now asked for besides the drawing, as it was read last: bends, gaps, hardnesses.

    What shapes the zone anew makes others of its bends and gaps.
    """
    found: dict[_Of, SizeCame] = {}
    for course in state.courses():
        step = course.step
        if course.is_begun or step.number <= len(state.records):
            found = {of: one for of, one in found.items() if _stays(state, of, one, step)}
        for name in (*step.checks, *_wanted_unasked(step)):
            zone, dimension = name.split(".", 1)
            if _is_apart(course, dimension):
                finished = step.number <= len(state.records)
                found[_of(step, zone, dimension)] = _asked(course, zone, dimension, finished=finished)
        for outcome in course.outcomes:
            reading = outcome.mark.reading
            if outcome.surprise is not None or not _is_told(course, outcome):
                continue
            if outcome.counts:
                found[_of(step, reading.zone, reading.dimension)] = _read(state, course, outcome)
            elif outcome.old and not outcome.questioned:
                of, read = _of(step, reading.zone, reading.dimension), _when(state, course, outcome)
                if _is_of_hardness(course, outcome):
                    found[of] = _asked(course, *reading[:2], finished=True)._replace(read=read)
                elif kind_of(step, reading.dimension) not in _OF_TREATMENT:
                    found[of] = _worked_since(course, read, *reading[:2], len(state.records))
    yield from found.values()


def _wanted_unasked(step: Step) -> list[str]:
    """The hardnesses and gaps that a step is to come to though it asks for no reading of them."""
    kinds = Kind.HARDNESS, Kind.GAP
    names = ((f"{zone}.{of}", of) for zone in step.zones for of in step.targets)
    return [name for name, of in names if name not in step.checks and kind_of(step, of) in kinds]


def _of(step: Step, zone: str, dimension: str) -> _Of:
    """What is answered: of a treatment each step keeps its own answers, of all else the last counts."""
    own = treats(step) and kind_of(step, dimension) in _OF_TREATMENT
    return zone, dimension, step.number if own else 0


def _stays(state: JobState, of: _Of, one: SizeCame, step: Step) -> bool:
    """Whether an answer stays told once this step has come.

    What shapes its zone anew makes others of its bends and gaps, but for saw, file and stone; a treatment
    that is done again takes the place of the one before it, and a new quench that of the temper too.
    """
    zone, _, number = of
    if not number and one.wanted is not None and one.wanted.kind is Kind.HARDNESS:
        return not (step.does(Does.QUENCHES) and zone in step.zones)
    if not number:
        todo = operation(step.operation)
        takes_off = todo.FIXES and one.dimension not in todo.EXTRAS
        return takes_off or _lasts(one) or not reshapes(step, zone)
    if not step.again or zone not in step.zones:
        return True
    return not (step.does(Does.QUENCHES) or step.operation == state.plan.recipe.steps[number - 1].operation)


def _lasts(one: SizeCame) -> bool:
    """Whether it stays told though its zone is shaped anew."""
    kind = one.wanted.kind if one.wanted is not None else one.came.kind if one.came is not None else None
    return kind in _OF_TREATMENT


def _is_apart(course: Course, dimension: str) -> bool:
    extra = dimension in operation(course.step.operation).EXTRAS and dimension != MARK
    return extra and dimension not in SHOP_TESTS and kind_of(course.step, dimension) in _APART


def _is_told(course: Course, outcome: Outcome) -> bool:
    """Whether it is told apart from the drawing: a hardness wherever it was read against what is wanted."""
    if outcome.limits is not None and _is_of_hardness(course, outcome):
        return True
    return _is_apart(course, outcome.mark.reading.dimension)


def _is_of_hardness(course: Course, outcome: Outcome) -> bool:
    return kind_of(course.step, outcome.mark.reading.dimension) is Kind.HARDNESS


def _asked(course: Course, zone: str, dimension: str, *, finished: bool) -> SizeCame:
    limits, kind = course.step.targets.get(dimension), kind_of(course.step, dimension)
    return SizeCame(
        name=f"{zone}.{dimension}",
        zone=zone,
        dimension=dimension,
        step=course.step.number,
        wanted=Wanted(limits, kind) if limits is not None else None,
        allowed=None,
        came=None,
        reckoned=None,
        beyond=None,
        verdict=SizeVerdict.NOT_MEASURED if finished else SizeVerdict.TO_COME,
        read=None,
        let_go=None,
    )


def _worked_since(course: Course, read: WhenRead, zone: str, dimension: str, done: int) -> SizeCame:
    """What a step asked for, or was read in it unasked, and a heat has worked since it was read."""
    asked = _asked(course, zone, dimension, finished=course.step.number <= done)._replace(read=read)
    is_asked = asked.wanted is not None or asked.name in course.step.checks
    return asked if is_asked else asked._replace(verdict=SizeVerdict.AS_READ)


def _read(state: JobState, course: Course, outcome: Outcome) -> SizeCame:
    reading, outcome = outcome.mark.reading, outcome._replace(judged=left_over(course.step, outcome))
    asked = _asked(course, reading.zone, reading.dimension, finished=True)
    kind, limits = kind_of(course.step, reading.dimension), outcome.limits
    came, verdict, beyond = Figure(reading.size_mm, kind), SizeVerdict.AS_READ, None
    if limits is not None and outcome.verdict is not None:
        seems = SizeState.of(came.value, limits)
        verdict = SizeVerdict.NOT_SURE
        by_eye = outcome.verdict is Verdict.UNSURE and reading.gauge == course.step.gauge == BY_EYE
        if outcome.verdict is Verdict.GOOD or (by_eye and seems is SizeState.GOOD):
            verdict = SizeVerdict.WITHIN  # by eye, where the step asks for no more than that
        elif outcome.verdict is not Verdict.UNSURE and seems is not SizeState.GOOD:
            verdict, beyond = SizeVerdict(seems.value), _beyond(came, limits)
    return asked._replace(
        wanted=Wanted(limits, kind) if limits is not None else None,
        came=came,
        beyond=beyond,
        verdict=verdict,
        read=_when(state, course, outcome),
    )
