"""Which size, measured now, would tell most of how the job stands, and what its doubt comes from."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Sequence
from itertools import islice
from math import hypot, sqrt
from typing import NamedTuple

from coach.bench.checks import Check
from coach.bench.gauged import usual_gauge
from coach.bench.in_turn import next_to_read
from coach.bench.job_state import JobState
from coach.bench.planned_doubt import Decides, where_doubt_comes_from
from coach.bench.replay import apply
from coach.bench.standing import Standing
from coach.forms import label
from coach.ledger.course import Course
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.verdict import Reason, Verdict
from coach.ledger.wanting import is_marked_ahead
from coach.ledger.weighing import expected_mass, surprise_of_mass
from coach.ledger.workpiece import at_stock, size_name
from coach.operations.gauges import GAUGES, MADE_FOR_ONE
from coach.operations.measures import MARK, MASS
from coach.quantities.figure import Figure, Kind, grams, mm

#: Where a reading may come out, in its standard uncertainties, and how likely: Gauss and Hermite's five nodes
#: (Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.10, from memory; exact to the ninth
#: power).
_NODES = (
    (-2.85697, 0.011257),
    (-1.355626, 0.222076),
    (0.0, 0.533333),
    (1.355626, 0.222076),
    (2.85697, 0.011257),
)
#: A reading that lowers the Brier score by less is not worth a trip to the bench (tried beside twice and six
#: times as much in a made-up forge: our choice).
_WORTH = 0.002
#: So many sizes are tried, those that are the least known beside their gauge first (our choice).
_MOST_TRIED = 6
#: A size that is known as well as one reading leaves it is not measured again: what would be read is then no
#: more in doubt than so many times what the gauge leaves (judgement).
_UNKNOWN_FROM = sqrt(2.0)


class WouldTell(NamedTuple):
    """A size that could be measured now, and how far its reading would move what is told of the job."""

    name: str  # as commands take it: `blade.length`, or `body.mass`
    zone: str  # or the piece that is weighed
    dimension: str
    believed: (
        Figure  # what it is believed to be; one that the step in hand asks for, as its end is to leave it
    )
    asked: bool  # whether the step in hand asks for it
    moves_chance: float  # as a standard deviation
    moves_will_pass: float

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)

    @property
    def gain(self) -> float:
        """By how much the Brier score of both chances together is expected to fall."""
        return self.moves_chance**2 + self.moves_will_pass**2


class DoubtOfJob(NamedTuple):
    """What a job's doubt comes from and which readings would lower it."""

    decides: Decides | None  # the size that it turns on; `null` where none does
    would_tell: tuple[WouldTell, ...]  # what is worth measuring now, what tells most first
    again: tuple[str, ...] = ()  # what was measured, as it is spoken of, and is left unsure by it
    begun: bool = False  # whether anything was done of it, so that its bars are what they are
    asked_next: str = ""  # what the step in hand asks for next, as it is spoken of; "" where it asks nothing
    hangs_on: str = ""  # the size that the verdict asks for, as it is spoken of: what was read does not agree


def doubt_of_job(
    state: JobState, standing: Standing, if_read: Callable[[str, str], Standing | None]
) -> DoubtOfJob:
    """What a job's doubt comes from, and what to measure first.

    The reading that tells most is that which makes the chances move furthest: their variance over what may be
    read is the expected fall of the Brier score (G. W. Brier, Monthly Weather Review 78, 1950; the fall by
    the law of total variance).

    Args:
        state: of the job.
        standing: where it stands.
        if_read: where it would stand if a size, by its name, were read so; None where it would not be taken.
    """
    courses = state.courses()  # finished, it is as its last step left it
    tried = _candidates(state, courses[-1], standing.checks) if courses else ()
    # What the step asks for is told as it is where the step stands, and not as it is half way.
    told = {one.name: one.expected for one in standing.checks if one.is_open and one.expected is not None}
    found = (_would_tell(one, told.get(one.name, one.believed), standing, if_read) for one in tried)
    hangs_on = _hangs_on(state, standing)
    first = hangs_on.name if hangs_on is not None else ""
    worth = sorted(
        (one for one in found if one.gain >= _WORTH), key=lambda one: (one.name != first, -one.gain)
    )
    decides = hangs_on or _decides(state)
    again = tuple(check.label for check in standing.checks if _may_be_settled(check))
    begun = bool(state.records or state.marks)
    following = next_to_read(standing)
    asked_next = following.label if following is not None else ""
    told_so = decides and _as_told(decides, standing)
    asked_by_verdict = label(hangs_on.zone, hangs_on.dimension) if hangs_on is not None else ""
    return DoubtOfJob(told_so, tuple(worth), again, begun, asked_next, asked_by_verdict)


def _hangs_on(state: JobState, standing: Standing) -> Decides | None:
    """The size that the verdict asks for, as what was read does not agree; None where it asks for none."""
    measure = standing.reason.measure if isinstance(standing.reason, Reason) else ""
    if not measure or state.now is None:
        return None
    zone, _, dimension = measure.rpartition(".")
    row = next((row for row in standing.sizes if row.name == measure), None)
    doubt = row.expected.doubt if row is not None else state.now.size(zone, dimension).doubt
    return Decides(measure, zone, dimension, None, mm(doubt or 0.0), ())


def _as_told(decides: Decides, standing: Standing) -> Decides:
    """It; a size that was measured is known as well as its row says, and its doubt is the gauge's."""
    rows = (row for row in standing.sizes if (row.zone, row.dimension) == (decides.zone, decides.dimension))
    row = next((row for row in rows if row.measured and row.expected.doubt is not None), None)
    if row is None or row.expected.doubt is None or row.expected.doubt >= decides.doubt.value:
        return decides
    return decides._replace(doubt=mm(row.expected.doubt), sources=())


def _decides(state: JobState) -> Decides | None:
    """The size that decides, with what its doubt comes from: the job carried on, its sources told apart."""
    first = state.first_plan
    apart = JobState(first, first, start=at_stock(first, told_apart=True), doubted=state.doubted)
    for entry in state.counted.values():
        apply(apart, entry)
    found, now = apart.forecast(), apart.now
    if found is None or now is None or found.trouble:
        return None
    doubts = where_doubt_comes_from(apart.plan, now, found)
    if doubts is None or apart.step is not None:
        return doubts.decides if doubts is not None else None
    return doubts.decides._replace(sources=())  # of a finished tool a gauge tells it all


class _Candidate(NamedTuple):
    name: str
    zone: str
    dimension: str
    believed: Figure
    asked: bool
    spread: float  # standard uncertainty of what would be read
    own: float  # of that, the gauge's


def _candidates(state: JobState, course: Course, checks: Sequence[Check]) -> Sequence[_Candidate]:
    """What could be measured now and is not known yet, the least known beside its gauge first.

    Before all of them what was measured and is to be measured again.
    """
    asked = {check.name for check in checks}
    again = {check.name for check in checks if _may_be_settled(check)}
    settled = {check.name for check in checks if not check.is_open} - again
    every = (*_sizes(state, course, asked), *_marks(checks), *_masses(state, course))
    unknown = (
        one
        for one in every
        if one.name in again or (one.name not in settled and one.spread > _UNKNOWN_FROM * one.own)
    )
    first = sorted(unknown, key=lambda one: (one.name not in again, -one.spread / one.own))
    return tuple(islice(first, _MOST_TRIED))


def _may_be_settled(check: Check) -> bool:
    """Whether its reading counts and does not settle it, and another by the same gauge may."""
    judged = check.reading.judged if check.reading is not None and not check.is_open else None
    if judged is None or judged.verdict is not Verdict.UNSURE:
        return False
    return not (judged.too_coarse or judged.unsure_again or judged.by_eye)


def _sizes(state: JobState, course: Course, asked: Container[str]) -> Iterator[_Candidate]:
    recipe, step = state.plan.recipe, course.step
    stages = {} if course.is_begun else state.plan.by_step[step.number]  # which is still to make its sizes
    for zone, there in course.now.zones.items():
        if not there.has_form or is_marked_ahead(state.plan, step, zone):
            continue
        for dimension in there.shape.dimensions:
            gauge = usual_gauge(recipe, step, zone, dimension)
            if (there.shape.one_with(dimension) or dimension) != dimension:
                continue
            if gauge not in GAUGES or gauge in MADE_FOR_ONE:
                continue
            if zone in stages and stages[zone].works(dimension):
                continue
            size = course.now.size(zone, dimension)
            if size.value <= 0.0:
                continue
            own = cold_reading(Reading(zone, dimension, size.value, gauge)).doubt_mm
            name = size_name(zone, dimension)
            yield _Candidate(
                name,
                zone,
                dimension,
                mm(size.value, size.doubt),
                name in asked,
                hypot(size.doubt, own),
                own,
            )


def _marks(checks: Sequence[Check]) -> Iterator[_Candidate]:
    for check in checks:
        expected = check.expected
        if check.dimension == MARK and expected is not None and expected.doubt:
            own = cold_reading(Reading(check.zone, MARK, expected.value, check.gauge)).doubt_mm
            spread = hypot(expected.doubt, own)
            yield _Candidate(check.name, check.zone, MARK, expected, asked=True, spread=spread, own=own)


def _masses(state: JobState, course: Course) -> Iterator[_Candidate]:
    for piece in state.plan.recipe.pieces:
        expected = expected_mass(state.plan, course.now, course.step, piece, MASS)
        if expected is not None and expected.value > 0.0:
            own = surprise_of_mass(expected, expected.value, course.now.belief).cold.doubt_mm
            spread = hypot(expected.doubt, own)
            believed = grams(expected.value)._replace(doubt=expected.doubt)
            name = size_name(piece, MASS)
            yield _Candidate(name, piece, MASS, believed, asked=False, spread=spread, own=own)


def _would_tell(
    one: _Candidate, believed: Figure, standing: Standing, if_read: Callable[[str, str], Standing | None]
) -> WouldTell:
    now = standing.chance, _will_pass(standing)
    told = []
    for at, weight in _NODES:
        size = one.believed.value + at * one.spread
        then = if_read(one.name, _typed(one.believed.kind, size)) if size > 0.0 else None
        told.append((weight, (then.chance, _will_pass(then)) if then is not None else now))
    chance, passes = (_deviation([(weight, chances[at]) for weight, chances in told]) for at in range(2))
    # No reading moves a chance further than its outcome would: five nodes say more at the ends.
    most = sqrt(now[1] * (1.0 - now[1]))
    return WouldTell(one.name, one.zone, one.dimension, believed, one.asked, chance, min(passes, most))


def _will_pass(standing: Standing) -> float:
    return standing.will_pass.chance if standing.will_pass is not None else 0.0


def _deviation(weighed: Sequence[tuple[float, float]]) -> float:
    mean = sum(weight * chance for weight, chance in weighed)
    return sqrt(sum(weight * (chance - mean) ** 2 for weight, chance in weighed))


def _typed(kind: Kind, size: float) -> str:
    return f"{size:.3f} {'g' if kind is Kind.MASS else 'mm'}"
