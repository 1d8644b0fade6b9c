"""Verdicts of readings that hang on more than the size itself: on other readings, or on a test."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import fsum, inf, sqrt

from coach.ledger.as_run import LONGEST_RUN_S, beside_its_soak, judged_as_run
from coach.ledger.course import Course, HeatMark, Mark, Outcome, ReadingMark
from coach.ledger.left_soft import is_hard_amiss, is_left_soft
from coach.ledger.plan import Plan
from coach.ledger.possible import Bound, is_cut_as_wanted
from coach.ledger.reading import QUESTIONED_BEYOND, Surprise, cold_reading
from coach.ledger.verdict import Judged, Verdict, judge
from coach.ledger.wanted_apart import wanted_apart
from coach.ledger.weighing import kind_of
from coach.operations import Does, operation
from coach.operations.gauges import BY_COLOUR
from coach.operations.measures import ALIKE, MEASURED, PASSED, with_margin
from coach.operations.shop_test import MadeOn, Result
from coach.quantities import COVERAGE, Kind, Limits
from coach.recipe.model import Step

_VERDICTS = {
    Result.PASS: Verdict.GOOD,
    Result.DOUBT: Verdict.UNSURE,
    Result.FAIL: Verdict.OUT,
}

_FILE_TEST, _HARDNESS, _SOAK = "file_test", "hardness", "soak"
#: What is read of a treatment itself.
_OF_TREATMENT = ("temperature", _SOAK)
#: What may contradict what else was read of a heat treatment, or what was asked of it.
_SPEAKS_AGAINST = (_FILE_TEST, _HARDNESS, "magnet", "soak", "temperature")
#: What is done to steel stays done though it be less later: how hot it was, and how long.
_LASTING = (Kind.TEMPERATURE, Kind.TIME)


def believable(limits: Limits, surprise: Surprise) -> Limits:
    """More than the metal could make is enough of it, but something else is not what it seems."""
    most = surprise.expected.value + QUESTIONED_BEYOND * surprise.expected.doubt
    return no_more(limits, most)


def no_more(limits: Limits, most: float) -> Limits:
    """Limits with the most that a size may be."""
    return Limits(min(limits.nominal, most), min(limits.low, most), most, True)


def no_more_than_there_is(
    judged: Judged, limits: Limits, surprise: Surprise, bound: Bound | None, *, questioned: bool, cuts: bool
) -> tuple[Judged, Limits]:
    """A verdict and its limits, where more than can be was read of a size that may be any amount more."""
    cold = surprise.cold
    odd_more = surprise.questioned and limits.high == inf and cold.size_mm > surprise.expected.value
    odd_more = odd_more and not (cuts and is_cut_as_wanted(limits, cold.size_mm))
    if odd_more and (questioned or cuts):
        limits = believable(limits, surprise)
        return judge(cold.size_mm, cold.doubt_mm, limits, grows=False if cuts else None), limits
    if bound is not None and bound.in_section and not bound.is_least and limits.high == inf:
        limits = no_more(limits, bound.size_mm)
        return judge(cold.size_mm, cold.doubt_mm, limits, grows=None), limits
    return judged, limits


def extra(plan: Plan, step: Step, mark: ReadingMark) -> Outcome:
    """An angle, a gap, a heat, a test: judged against its target, no part of the metal account."""
    reading = mark.reading
    kind = kind_of(step, reading.dimension)
    if kind is Kind.TEST:
        result = Result.of(reading.size_mm)
        if is_left_soft(plan, reading.zone, reading.dimension):
            return Outcome(
                mark, None, Judged(_of_soft(plan, reading.zone, result), 0.0, False, False), PASSED
            )
        from coach.ledger.shop_test_of import steel_of

        steel = steel_of(plan, step, reading.zone, reading.dimension)
        if steel is MadeOn.HARD:
            return Outcome(mark)  # it says nothing there
        verdict = _VERDICTS[result]
        if verdict is Verdict.OUT and steel is MadeOn.TEMPERED:
            verdict = Verdict.UNSURE  # a file bites good tempered steel too
        return Outcome(mark, None, Judged(verdict, 0.0, False, False), PASSED)
    wanted = limits = wanted_apart(plan, step, reading.zone, reading.dimension)
    if wanted is None or limits is None:
        return Outcome(mark)
    if reading.gauge == BY_COLOUR and step.does(Does.TEMPERS):
        from coach.ledger.tempered import as_a_run, is_colour_of, is_colour_of_run

        limits = as_a_run(plan, step, wanted)
        if limits != wanted and is_colour_of_run(limits, reading.size_mm):  # no eye settles it closer
            return Outcome(mark, None, Judged(Verdict.GOOD, 0.0, False, False), limits, soaked=wanted)
        if limits == wanted and is_colour_of(step, reading.size_mm):  # the colour that it is run to
            return Outcome(mark, None, Judged(Verdict.GOOD, 0.0, False, False), limits)
    doubt = MEASURED[kind].doubt
    if doubt is None:
        doubt = cold_reading(reading).doubt_mm
    elif kind is Kind.TEMPERATURE:
        doubt = reading.hot_doubt_c or doubt
    grows = operation(step.operation).GROWS.get(reading.dimension) if reading.zone in step.zones else None
    judged = judge(reading.size_mm, doubt, limits, grows=grows)
    if kind is Kind.HARDNESS:
        judged = judged._replace(too_coarse=False)  # several of them settle what one cannot
    if judged.verdict is Verdict.GONE_PAST:
        judged = judged._replace(verdict=Verdict.OUT)  # a bend can be opened again
    if reading.dimension == _SOAK and step.does(Does.QUENCHES) and judged.verdict is Verdict.OUT:
        from coach.metals.hardening import harmless_soak_s

        if not judged.below and reading.size_mm <= harmless_soak_s(limits.high):
            judged = judged._replace(verdict=Verdict.GOOD)  # it is told what it costs, and stands
    return Outcome(mark, None, judged, limits, soaked=wanted if limits != wanted else None)


def _of_soft(plan: Plan, zone: str, result: Result) -> Verdict:
    """What a file says of steel that no step hardens: it is to bite, and some parts may not be hard."""
    if is_hard_amiss(plan, zone, _FILE_TEST, result):
        return Verdict.OUT
    return Verdict.UNSURE if result is Result.DOUBT else Verdict.GOOD


def in_one_light(
    plan: Plan, step: Step, outcomes: Sequence[Outcome], marks: Sequence[Mark], as_typed: Sequence[Mark]
) -> list[Outcome]:
    """The readings of a step, each in the light of the others, in the order they were typed."""
    places = {mark.entry: place for place, mark in enumerate(as_typed)}
    lit = [in_light_of_others(plan, step, one, outcomes, marks) for one in outcomes]
    lit = [beside_its_like(step, one, outcomes) for one in lit]
    undone = {one.mark.entry for one in lit if one.old}
    lit = [as_one_measurement(one, [mark for mark in as_typed if mark.entry not in undone]) for one in lit]
    lit.sort(key=lambda one: places[one.mark.entry])
    if not any(one.mark.reading.dimension in _SPEAKS_AGAINST for one in lit):
        return [as_a_run_takes(plan, step, beside_its_hottest(step, one, lit), lit) for one in lit]
    from coach.ledger.contradicting import questioned_beside

    # What is questioned outdoes nothing.
    doubted = {one.mark.entry for one in questioned_beside(plan, step, lit, as_typed) if one.questioned}
    stand = [one for one in lit if one.mark.entry not in doubted]
    lit = [
        one
        if one.mark.entry in doubted
        else beside_its_soak(
            step, as_a_run_takes(plan, step, beside_its_hottest(step, one, stand), stand), stand, as_typed
        )
        for one in lit
    ]
    lit = questioned_beside(plan, step, lit, as_typed)
    return [beside_its_heat(step, beside_its_hardness(one, lit), lit) for one in lit]


def beside_its_like(step: Step, outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """What has its like on the other side is to be as that: each within a bare size's margin of their mean.

    So it is judged where the step says no size of its own, once both are read, the latest of each.
    """
    reading, other = outcome.mark.reading, ALIKE.get(outcome.mark.reading.dimension)
    if other is None or outcome.judged is not None or reading.dimension in step.targets:
        return outcome
    beside = [one for one in outcomes if one.mark.reading[:2] == (reading.zone, other)]
    if not beside:
        return outcome
    cold = cold_reading(reading)
    mean_mm = 0.5 * (cold.size_mm + cold_reading(beside[-1].mark.reading).size_mm)
    limits = with_margin(Limits(mean_mm, mean_mm, mean_mm, stated=False), MEASURED[Kind.LENGTH].margin)
    judged = judge(cold.size_mm, cold.doubt_mm, limits, grows=None)
    return outcome._replace(judged=judged, limits=limits)


def as_one_measurement(outcome: Outcome, as_typed: Sequence[Mark]) -> Outcome:
    """A hardness with those before it of the same treatment that agree with it, judged by their mean.

    Its standard error is that of one reading by the root of how many they are (JCGM 100:2008, 4.2.3). A heat
    or a soak that was read between, or a reading further off than chance takes it, is of another treatment.
    """
    reading, limits = outcome.mark.reading, outcome.limits
    one_doubt = MEASURED[Kind.HARDNESS].doubt
    if reading.dimension != _HARDNESS or outcome.judged is None or limits is None or one_doubt is None:
        return outcome
    sizes: list[float] = []
    begun = False
    for mark in reversed(as_typed):
        begun = begun or mark.entry == outcome.mark.entry
        if not begun:
            continue
        if not isinstance(mark, ReadingMark):
            break
        if mark.reading.zone != reading.zone or mark.reading.dimension not in (_HARDNESS, *_OF_TREATMENT):
            continue
        off = abs(mark.reading.size_mm - fsum(sizes) / len(sizes)) if sizes else 0.0
        chance = COVERAGE * one_doubt * sqrt(1.0 + 1.0 / max(len(sizes), 1))
        if mark.reading.dimension != _HARDNESS or off > chance:
            break
        sizes.append(mark.reading.size_mm)
    if len(sizes) < 2:
        return outcome
    mean_hrc = fsum(sizes) / len(sizes)
    judged = judge(mean_hrc, one_doubt / sqrt(len(sizes)), limits, grows=None)
    judged = judged._replace(too_coarse=False)
    return outcome._replace(judged=judged, mean_of=len(sizes), mean_hrc=mean_hrc)


def beside_its_hardness(outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """A hardness measured within its limits settles what a file said of the same zone."""
    reading = outcome.mark.reading
    if reading.dimension != _FILE_TEST or outcome.questioned or outcome.verdict is Verdict.GOOD:
        return outcome
    measured = [one for one in outcomes if one.mark.reading[:2] == (reading.zone, _HARDNESS)]
    last = next((one for one in reversed(measured) if not one.questioned), None)
    if last is None or last.limits is None:
        return outcome
    inside = last.limits.low <= last.mark.reading.size_mm <= last.limits.high
    if last.verdict is not Verdict.GOOD and not (last.verdict is Verdict.UNSURE and inside):
        return outcome
    return outcome._replace(judged=Judged(Verdict.GOOD, 0.0, False, False))


def beside_its_heat(step: Step, outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """A soak with what was read of its heat: too hot to quench from, its grain grew whatever its minutes.

    Of a temper that was too hot no more of it is wanted: each minute more makes the steel softer. Its heat
    has the soak that was read beside it.
    """
    reading = outcome.mark.reading
    if reading.dimension == _OF_TREATMENT[0] and step.does(Does.TEMPERS):
        soaks = [one for one in outcomes if one.mark.reading[:2] == (reading.zone, _SOAK) and one.counts]
        last = soaks[-1].outdone_by or soaks[-1].mark.reading if soaks else None
        return outcome._replace(soaked_s=last.size_mm if last is not None else None)
    if reading.dimension != _SOAK or not (step.does(Does.QUENCHES) or step.does(Does.TEMPERS)):
        return outcome
    too_hot = any(
        one.mark.reading[:2] == (reading.zone, _OF_TREATMENT[0])
        and one.verdict is Verdict.OUT
        and one.judged is not None
        and not one.judged.below
        and not one.questioned
        and not is_little_over(step, one)
        for one in outcomes
    )
    if not too_hot or step.does(Does.QUENCHES):
        return outcome._replace(too_hot=too_hot)
    is_short = outcome.judged is not None and outcome.judged.below
    return outcome._replace(judged=None, limits=None) if is_short else outcome


def as_a_run_takes(plan: Plan, step: Step, outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """The minutes of a run of colours are not held against the hours of the soak that it stands in for.

    Nor is its heat, read by a thermometer, where it does in those minutes what the soak does at its own.
    """
    reading = outcome.mark.reading
    if reading.dimension == _OF_TREATMENT[0]:
        return judged_as_run(plan, step, outcome, outcomes)
    short = outcome.judged is not None and outcome.judged.below and reading.size_mm <= LONGEST_RUN_S
    if not short or not step.does(Does.TEMPERS) or reading.dimension != "soak":
        return outcome
    heats = [one for one in outcomes if one.mark.reading[:2] == (reading.zone, _OF_TREATMENT[0])]
    if not heats:
        return outcome
    # The heat that was read last decides, or a hotter one that it does not undo.
    outdone_by = beside_its_hottest(step, heats[-1], outcomes).outdone_by
    heat = next((one for one in reversed(heats) if one.mark.reading is outdone_by), heats[-1])
    ran = heat.mark.reading.gauge == BY_COLOUR or judged_as_run(plan, step, heat, [outcome]) is not heat
    return outcome._replace(judged=None, limits=None) if ran else outcome


def beside_its_hottest(step: Step, outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """What a quench or a temper did at its hottest, or in its longest soak, no later reading undoes.

    Steel does not get hard again as it cools, nor its grain fine. A heat that was only in doubt is settled by
    a surer reading of it.
    """
    kind = operation(step.operation).kind_of(outcome.mark.reading.dimension)
    if not (step.does(Does.QUENCHES) or step.does(Does.TEMPERS)) or kind not in _LASTING:
        return outcome
    hottest = outcome
    for one in outcomes:
        if one.mark.entry == outcome.mark.entry:
            break
        if one.mark.reading[:2] == outcome.mark.reading[:2] and _outdoes(step, one, hottest):
            hottest = one
    if hottest is outcome:
        return outcome
    return outcome._replace(judged=hottest.judged, limits=hottest.limits, outdone_by=hottest.mark.reading)


#: A hardening heat so far over what is wanted hardly coarsens a grain, °C: steel is hardened from some 30 to
#: 50 °C over where it has turned (common practice, no source).
LITTLE_OVER_C = 20.0


def is_little_over(step: Step, outcome: Outcome) -> bool:
    """Whether a hardening heat is so little over what is wanted that it is let fall and quenched then."""
    reading, limits = outcome.mark.reading, outcome.limits
    if not step.does(Does.QUENCHES) or reading.dimension != "temperature" or limits is None:
        return False
    return limits.high < reading.size_mm <= limits.high + LITTLE_OVER_C


def _outdoes(step: Step, earlier: Outcome, later: Outcome) -> bool:
    """Whether an earlier reading was over what is wanted, as surely as the later one, and further."""
    was, now = earlier.mark.reading, later.mark.reading
    if earlier.judged is None or earlier.judged.below or was.size_mm <= now.size_mm:
        return False
    if is_little_over(step, earlier):
        return False
    unsettled = earlier.verdict is Verdict.UNSURE and was.hot_doubt_c <= now.hot_doubt_c
    return earlier.verdict is Verdict.OUT or unsettled


def in_light_of_others(
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
    if reading.dimension != stage.after.free or operation(step.operation).FIXES:
        return outcome  # what is ground thinner grows no longer
    at = {mark.entry: place for place, mark in enumerate(marks)}
    heats = (place for place, mark in enumerate(marks) if isinstance(mark, HeatMark))
    next_heat = next((place for place in heats if place > at[outcome.mark.entry]), len(marks))
    latest = {
        other.mark.reading.dimension: other
        for other in outcomes
        if other.mark.reading.zone == reading.zone
        and at[other.mark.entry] < next_heat
        and not other.questioned
    }
    if not any(one.verdict is Verdict.MORE_TO_GO for one in latest.values()):
        return outcome
    return outcome._replace(judged=judged._replace(verdict=Verdict.MORE_TO_GO))


def beside_its_quench(plan: Plan, course: Course, before: Iterable[Course | None]) -> Course:
    """A temper's heats and hardnesses held against what was read of its quench and of tempers before it.

    So is a hardness that is read later; whatever else is read stays as it is.
    """
    earlier = [one for one in before if one is not None]
    if any(one.mark.reading.dimension == _HARDNESS for one in course.outcomes):
        from coach.ledger.drawn_before import questioned_as_drawn

        course = questioned_as_drawn(plan, course, earlier)
    if not course.step.does(Does.TEMPERS) or not course.outcomes:
        return course
    from coach.ledger.contradicting import questioned_after_quench
    from coach.ledger.too_soft import questioned_as_too_soft

    return questioned_as_too_soft(plan, questioned_after_quench(course, earlier), earlier)
