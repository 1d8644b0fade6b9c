"""One step as it goes: heats and readings in the order they came, and what they say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot, inf, sqrt
from typing import NamedTuple

from coach.forms import Form
from coach.ledger.amendment import Amendment, amended_workpiece
from coach.ledger.belief import Belief, Change
from coach.ledger.hammering import hammered, worked_on
from coach.ledger.learning import UNTAUGHT, Learner, Taught
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.reading import (
    QUESTIONED_BEYOND,
    Reading,
    Surprise,
    cold_reading,
    surprise_of,
    taken_in,
)
from coach.ledger.scaling import scaled
from coach.ledger.stepping import step_on
from coach.ledger.verdict import Judged, Verdict, judge
from coach.ledger.wanting import wanted
from coach.ledger.weighing import (
    MASS,
    SLUG,
    expected_mass,
    expected_slug,
    surprise_of_mass,
    weighed,
)
from coach.ledger.working import targets_of
from coach.ledger.workpiece import Estimate, Workpiece, size_name, volume_name, volume_slope
from coach.operations import operation
from coach.operations.measures import KINDS, PASSED
from coach.operations.shape import NOTHING
from coach.operations.shop_tests import DOUBT, FAIL, PASS
from coach.quantities import Limits
from coach.recipe.model import Step

#: Two readings of one size differ by more than this many standard uncertainties only if work was done
#: between them.
_WORKED_BETWEEN = 2.0
#: How far a few blows too many may take a size past where it was, as a share (common practice, no source).
_HAMMERED_SHARE = 0.05
#: A reading that is insisted on against the reckoning widens the reckoning until it is this surprising.
_INSISTED_AT = 2.0


#: No one stroke takes a size so far past what it is worked to, as a share of it (common practice, no source).
_FAR_PAST_SHARE = 0.2


_VERDICTS = {PASS: Verdict.GOOD, DOUBT: Verdict.UNSURE, FAIL: Verdict.OUT}


class HeatMark(NamedTuple):
    """One heat of the step."""

    entry: int
    minutes: float | None = None  # hot in the fire, where that was logged


class ReadingMark(NamedTuple):
    """One reading taken during the step."""

    entry: int
    reading: Reading
    insisted: bool = False


class AmendmentMark(NamedTuple):
    """A remedy taken during the step; its plan is already the one the step is followed by."""

    entry: int
    amendment: Amendment


Mark = HeatMark | ReadingMark | AmendmentMark


class Outcome(NamedTuple):
    """What became of one reading."""

    mark: ReadingMark
    surprise: Surprise | None  # None for a size that is no part of the metal account, such as an angle
    judged: Judged | None  # None when nothing is wanted of the size
    limits: Limits | None
    questioned: bool  # not believed yet: take it again
    taught: Taught = UNTAUGHT  # what it says of the shop
    run_wide: bool = False  # spread beyond what is wanted, and can be dressed back


class Course(NamedTuple):
    """A step as far as it has gone."""

    step: Step
    start: Workpiece
    now: Workpiece
    heats: int  # marked so far
    outcomes: tuple[Outcome, ...]
    marks: tuple[Mark, ...]
    start_forms: Mapping[str, Form] = NOTHING

    def last(self, zone: str, dimension: str) -> Outcome | None:
        """The latest reading of a size in this step, questioned or not."""
        for outcome in reversed(self.outcomes):
            reading = outcome.mark.reading
            if (reading.zone, reading.dimension) == (zone, dimension):
                return outcome
        return None


def asked_names(plan: Plan, step: Step) -> frozenset[str]:
    """The settled sizes that a step works to, as the belief names them; not those that only go with one."""
    found = set()
    for stage in plan.by_step[step.number].values():
        for dimension in targets_of(step, stage.zone):
            if dimension == stage.after.free or dimension in stage.after.linked:
                continue
            if dimension in stage.after.shape.dimensions:
                found.add(size_name(stage.zone, dimension))
    return frozenset(found)


def believed_name(plan: Plan, step: Step, reading: Reading) -> str:
    """The belief's name for the size that a reading settles: that of its leader where it goes with one."""
    if reading.dimension in (MASS, SLUG):
        return size_name(reading.zone, reading.dimension)
    stage = plan.by_step[step.number].get(reading.zone)
    dimension = reading.dimension if stage is None else stage.after.leader(reading.dimension)
    return size_name(reading.zone, dimension)


def follow(plan: Plan, start: Workpiece, step: Step, marks: Sequence[Mark], *, finished: bool) -> Course:
    """Replay a step's heats and readings.

    While the step is going on, a size it works to may be anywhere on its way; once it is finished, a size
    that was never read counts as worked to its target.

    Raises:
        LedgerError: the metal cannot make what the step asks for.
    """
    asked = asked_names(plan, step)
    last_heat = max((at for at, mark in enumerate(marks) if isinstance(mark, HeatMark)), default=-1)
    now = step_on(
        plan,
        start,
        step,
        heats=0.0,
        under_way=read_under_way(plan, step, marks, last_heat) if finished else asked,
    )
    outset = now.belief
    forms = {zone: start.form(zone) for zone in plan.by_step[step.number]}
    heats = 0
    outcomes: list[Outcome] = []
    believed: dict[str, float] = {}  # the last believed reading of each size, cold
    doubted: dict[str, list[ReadingMark]] = {}
    learner = Learner(plan, start, step)
    for at, mark in enumerate(marks):
        if isinstance(mark, HeatMark):
            heats += 1
            learner.heat()
            now = scaled(plan, now, step, forms, 1.0, mark.minutes)
            home = finished and at == last_heat
            now = hammered(plan, now, step, asked, believed, outset, home=home)
            continue
        if isinstance(mark, AmendmentMark):
            now = amended_workpiece(now, mark.amendment)
            for regained in mark.amendment.regained:
                # What was read of it is not so any more: it is to be measured again.
                name = size_name(regained.zone, regained.dimension)
                believed.pop(name, None)
                outcomes = [o for o in outcomes if believed_name(plan, step, o.mark.reading) != name]
            continue
        before = now
        outcome, now = _take(plan, now, step, mark, asked, believed, doubted, outset)
        if not outcome.questioned:
            now, taught = learner.read(before, now, mark.reading, outcome.judged)
            outcome = outcome._replace(taught=taught)
        outcomes.append(outcome)
    lit = tuple(_in_light_of_others(plan, step, outcome, outcomes, marks) for outcome in outcomes)
    return Course(step, start, now, heats, lit, tuple(marks), forms)


def read_under_way(plan: Plan, step: Step, marks: Sequence[Mark], last_heat: int) -> frozenset[str]:
    """The sizes that were still being worked at some reading, though the step is finished now.

    Those that were read themselves, and all of a zone that was measured before the last heat, or whose free
    dimension was read again: what was read then hung on a section that was not yet where it was going.
    """
    readings = [(at, mark.reading) for at, mark in enumerate(marks) if isinstance(mark, ReadingMark)]
    read = {believed_name(plan, step, reading) for _, reading in readings}
    early = {reading.zone for at, reading in readings if at < last_heat}
    seen: set[tuple[str, str]] = set()
    for _, reading in readings:
        stage = plan.by_step[step.number].get(reading.zone)
        if stage is not None and reading.dimension == stage.after.free:
            if (reading.zone, reading.dimension) in seen:
                early.add(reading.zone)
            seen.add((reading.zone, reading.dimension))
    asked = asked_names(plan, step)
    return frozenset(name for name in asked if name in read or name.rsplit(".", 1)[0] in early)


def _take(
    plan: Plan,
    now: Workpiece,
    step: Step,
    mark: ReadingMark,
    asked: frozenset[str],
    believed: dict[str, float],
    doubted: dict[str, list[ReadingMark]],
    outset: Belief,
) -> tuple[Outcome, Workpiece]:
    reading = mark.reading
    if reading.dimension in (MASS, SLUG):
        return _weigh(plan, now, step, mark, doubted)
    zone = reading.zone
    state = now.zones[zone]
    if state.laid_on is not None or reading.dimension not in state.shape.dimensions:
        return _extra(step, mark), now
    name = believed_name(plan, step, reading)
    cold = cold_reading(reading)
    limits, grows = wanted(plan, now, step, zone, reading.dimension)
    moved_mm = cold.size_mm - believed.get(name, cold.size_mm)
    if abs(moved_mm) > _WORKED_BETWEEN * sqrt(2.0) * cold.chance_mm:
        onward = moved_mm > 0.0 if _grows(plan, step, zone, reading.dimension) else moved_mm < 0.0
        if name in asked and onward:
            now = worked_on(plan, now, step, [name], least_mm=_HAMMERED_SHARE * cold.size_mm)
        elif reading.dimension == state.free and not operation(step.operation).FIXES:
            # The free dimension moved: so did the section it follows from, whether that was read or not.
            section = frozenset(one for one in asked if one.rsplit(".", 1)[0] == zone)
            now = hammered(plan, now, step, section, believed, outset)
    surprise = surprise_of(now, reading)
    agrees = any(
        abs(cold_reading(other.reading).size_mm - cold.size_mm)
        <= 3.0 * hypot(cold.chance_mm, cold_reading(other.reading).chance_mm)
        for other in doubted.get(name, ())
    )
    stage = plan.by_step[step.number].get(zone)
    far_past = name in asked and stage is not None and _is_far_past(stage, reading.dimension, cold.size_mm)
    questioned = (surprise.questioned or far_past) and not mark.insisted and not agrees
    judged = None
    dressed = stage is not None and reading.dimension in stage.dressed
    if limits is not None:
        judged = judge(cold.size_mm, cold.doubt_mm, limits, grows=grows, dressed=dressed)
        if surprise.questioned and limits.high == inf and cold.size_mm > surprise.expected.value:
            # More than the metal could make: enough of it, but something else is not what it seems.
            most = surprise.expected.value + QUESTIONED_BEYOND * surprise.expected.doubt
            limits = Limits(min(limits.nominal, most), min(limits.low, most), most, True)
            judged = judge(cold.size_mm, cold.doubt_mm, limits, grows=None)
    wide = dressed and judged is not None and judged.verdict is Verdict.MORE_TO_GO and not judged.below
    outcome = Outcome(mark, surprise, judged, limits, questioned, run_wide=wide)
    if questioned:
        doubted.setdefault(name, []).append(mark)
        return outcome, now
    if surprise.questioned:
        now = _widened(now, reading, surprise)
    believed[name] = cold.size_mm
    return outcome, taken_in(now, reading)


def _is_far_past(stage: Stage, dimension: str, size_mm: float) -> bool:
    """Whether a size is so far beyond what the step works to that a slip of the eye is likelier."""
    limits = stage.step.targets.get(dimension)
    if limits is None or not stage.is_past(dimension, size_mm, limits.nominal):
        return False
    return abs(size_mm - limits.nominal) > _FAR_PAST_SHARE * limits.nominal


def _weigh(
    plan: Plan, now: Workpiece, step: Step, mark: ReadingMark, doubted: dict[str, list[ReadingMark]]
) -> tuple[Outcome, Workpiece]:
    """A weighing says how much metal there is, not whether a size is good."""
    reading = mark.reading
    if reading.dimension == MASS:
        expected: Estimate | None = expected_mass(plan, now, reading.zone)
    else:
        expected = expected_slug(plan, now, step.number, reading.zone)
    if expected is None:
        return Outcome(mark, None, None, None, False), now
    surprise = surprise_of_mass(expected, reading.size_mm)
    name = believed_name(plan, step, reading)
    apart = 3.0 * surprise.cold.chance_mm * sqrt(2.0)
    agrees = any(abs(other.reading.size_mm - reading.size_mm) <= apart for other in doubted.get(name, ()))
    questioned = surprise.questioned and not mark.insisted and not agrees
    outcome = Outcome(mark, surprise, None, None, questioned)
    if questioned:
        doubted.setdefault(name, []).append(mark)
        return outcome, now
    return outcome, weighed(now, surprise)


def _extra(step: Step, mark: ReadingMark) -> Outcome:
    """An angle, a gap, a heat, a test: judged against its target, no part of the metal account."""
    reading = mark.reading
    kind = KINDS[operation(step.operation).kind_of(reading.dimension) or "length"]
    if kind.name == "test":
        verdict = _VERDICTS[reading.size_mm]
        return Outcome(mark, None, Judged(verdict, 0.0, 0.0, False, False), PASSED, False)
    limits = step.targets.get(reading.dimension)
    if limits is None:
        return Outcome(mark, None, None, None, False)
    doubt = kind.doubt
    if doubt is None:
        doubt = cold_reading(reading).doubt_mm
    elif kind.name == "temperature":
        doubt = reading.hot_doubt_c or doubt
    return Outcome(mark, None, judge(reading.size_mm, doubt, limits, grows=None), limits, False)


def _grows(plan: Plan, step: Step, zone: str, dimension: str) -> bool:
    stage = plan.by_step[step.number].get(zone)
    return stage is not None and dimension in stage.grows


def _in_light_of_others(
    plan: Plan, step: Step, outcome: Outcome, outcomes: Sequence[Outcome], marks: Sequence[Mark]
) -> Outcome:
    """A free dimension that is short while its section is still too big is not short of metal: work on.

    The section counts as it was read last, up to the heat in which the free dimension was read: it may be
    read after it, but not after more work.
    """
    reading, judged = outcome.mark.reading, outcome.judged
    stage = plan.by_step[step.number].get(reading.zone)
    if judged is None or judged.verdict is not Verdict.OUT or not judged.below or stage is None:
        return outcome
    if reading.dimension != stage.after.free:
        return outcome
    next_heat = min(
        (m.entry for m in marks if isinstance(m, HeatMark) and m.entry > outcome.mark.entry), default=inf
    )
    latest = {
        other.mark.reading.dimension: other
        for other in outcomes
        if other.mark.reading.zone == reading.zone and other.mark.entry < next_heat and not other.questioned
    }
    if not any(o.judged is not None and o.judged.verdict is Verdict.MORE_TO_GO for o in latest.values()):
        return outcome
    return outcome._replace(judged=judged._replace(verdict=Verdict.MORE_TO_GO))


def _widened(now: Workpiece, reading: Reading, surprise: Surprise) -> Workpiece:
    """The reckoning made less sure of itself, for a reading that the smith stands by."""
    zone, dimension = reading.zone, reading.dimension
    off = surprise.cold.size_mm - surprise.expected.value
    spread = (off / _INSISTED_AT) ** 2 - surprise.cold.doubt_mm**2 - surprise.expected.doubt**2
    if spread <= 0.0:
        return now
    state = now.zones[zone]
    if dimension != state.free:
        names = {size_name(zone, dimension): 1.0}
    else:
        slope = volume_slope(now.form(zone), dimension)
        total = now.volume_mm3(zone)
        # Shared out by volume, so that the parts' variances add up to what the size needs.
        names = {
            volume_name(part): slope**2 * now.belief.mean(volume_name(part)) / total for part in state.parts
        }
    changes = {
        name: Change(now.belief.mean(name), {name: 1.0}, spread * square) for name, square in names.items()
    }
    return Workpiece(now.zones, now.belief.predict(changes))
