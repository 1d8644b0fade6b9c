"""What a step asks to be measured, what was read of it, and what that means."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from coach.bench.after_out import after_out
from coach.bench.against_metal import is_against_metal
from coach.bench.by_hand import to_measure
from coach.bench.gauged import BY_GAUGES, too_coarse_before, usual_gauge
from coach.bench.happened import moment_of
from coach.bench.heat_treated import replaced_hardness
from coach.bench.job_state import JobState
from coach.bench.judgement import Judgement, judgement_of
from coach.bench.left_wrong import cheeks_off_the_middle
from coach.bench.marked_before import as_marked_then
from coach.bench.meant_for import may_be_of
from coach.bench.off_middle import drawn_ahead, other_tines
from coach.bench.standing_beside import (
    MeanRead,
    mean_read,
    outvoted_by,
    outweighed,
    scattered_over,
    standing_beside,
    stood_before,
)
from coach.bench.undone import asked_for
from coach.forms import label
from coach.ledger.across_cheeks import across_by_cheeks, across_that_decides
from coach.ledger.as_run import wanted_beside
from coach.ledger.cheeks import cheeks_of, other_read
from coach.ledger.course import AmendmentMark, Course, Outcome, cut_to_size
from coach.ledger.forecast import Forecast
from coach.ledger.left_over import left_over
from coach.ledger.made_anew import marked_there
from coach.ledger.own_curves import treatment_before
from coach.ledger.quenched_instead import quenched_instead
from coach.ledger.reading import cold_reading
from coach.ledger.section_read import wanted_in_section
from coach.ledger.shop_test_of import steel_of
from coach.ledger.verdict import ON_PLAN_CHANCE, Judged, Verdict
from coach.ledger.wanting import once_worked, over_from, wanted
from coach.ledger.weighing import expected_mass, kind_of
from coach.ledger.workpiece import Estimate
from coach.ledger.zone_forecast import FinishedSize, expected_size
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.operations import Does, operation
from coach.operations.measures import ALIKE, MARK, OTHER_TINE, PASSED
from coach.operations.shop_test import MadeOn, ShopTest
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import NOTHING, Figure, Kind, Limits, Wanted, Words, celsius
from coach.recipe.model import Step

_BEYOND = (Verdict.GONE_PAST, Verdict.OUT)


class SizeRead(NamedTuple):
    """A reading as it was taken and as it counts."""

    entry: int  # its number in the log
    typed: str  # as it was typed
    size: Figure  # as it was read
    cold: Figure  # the same on cold metal
    hot: Figure | None  # how hot the metal was; `null` when cold
    gauge: str  # what it was read with
    questioned: bool  # whether it waits to be taken again, or be insisted on; not once a heat has worked it
    insisted: bool  # whether the smith stood by it
    at: str  # when it was taken
    looked_for: Figure | None  # what it was expected to be just before; `null` where nothing was
    least_possible: Figure | None  # where it is less than the step can leave of the size
    most_possible: Figure | None  # where it is more
    in_section: bool  # whether that is what the metal makes in the section that the step works to
    old: bool  # whether a heat has worked the size since: it says no more what it is
    judged: Judgement | None  # `null` while it is questioned, and where nothing is wanted
    against: Words = NOTHING  # what else was read that it contradicts, where it is questioned for that
    replaces: Figure | None = None  # of a hardness: another that was read in the step before; else `null`
    against_metal: bool = False  # whether it was stood by though no work of its step could make it
    stands: Figure | None = None  # cold, what was read before and counts while this is in doubt; or `null`
    stands_judged: Judgement | None = None  # what that means for the size; of a test too; or `null`
    refused: bool = False  # whether it was questioned until a heat worked the size: it never counted
    outweighs: Figure | None = None  # cold, what was read before and counts no more because of this
    mean: MeanRead | None = None  # of it and those before it that agree with it, where that is another size
    outvotes: tuple[Figure, ...] = ()  # cold, read with no heat between: others agree against them
    later: Figure | None = None  # cold, of what is old: what was read of it since, and counts; else `null`
    scattered: tuple[Figure, ...] = ()  # cold, it and others with no heat between, where no two of them agree

    @property
    def is_good_by_eye(self) -> bool:
        """Whether it was seen inside its limits, by an eye that cannot be sure of it."""
        judged = self.judged
        if judged is None or not judged.by_eye:
            return False
        return judged.verdict is Verdict.UNSURE and judged.beyond.value <= 0.0


class Check(NamedTuple):
    """One size that a step asks to be measured, or that was measured in it."""

    name: str  # as `coach read` takes it: `blade.thickness`
    zone: str
    dimension: str
    kind: Kind  # `length`, `gap`, `angle`, `mass`, `temperature`, `time`, `hardness` or `test`
    wanted: Wanted | None  # `null` when nothing is wanted of it
    expected: Figure | None  # at the end of the step
    reading: SizeRead | None  # the latest; `null` before there is one
    verdict: Verdict | None  # `null` without a believed reading, or when nothing is wanted
    how: str  # how a test is made; empty for a size
    gauge: str  # what a size of the shop's gauges is read with where nobody says; else empty
    waits_for: int  # a test that failed before the zone is hardened or tempered: by this step; else 0
    if_out: Words = NOTHING  # what is done about it where it is out; empty where nothing is known
    tempered: bool = False  # whether it is a test of steel tempered softer than a file, or its hardness then
    left_soft: bool = False  # whether it is a test of steel that no step hardens
    made_on: MadeOn | None = None  # the steel that a test is made otherwise on; `null` where it is not
    optional: bool = False  # whether only a tester reads it: asked for, and never missed where it is unread
    for_stone: Figure | None = None  # so much more the skin of its steel wants for the stone; else `null`
    fits: str = ""  # where its reading is questioned: another size, unread, of which it would be good

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)

    @property
    def test(self) -> ShopTest:
        """The test of the shop that it is; raises KeyError where it is none."""
        return SHOP_TESTS[self.dimension].made_on(self.made_on)

    @property
    def is_open(self) -> bool:
        """Whether it is still to be read, or to be read again."""
        if self.reading is None:
            return not self.optional
        return self.reading.questioned or self.reading.old

    @property
    def may_stay_unread(self) -> bool:
        """Whether nobody has read it and nobody will miss that."""
        return self.optional and self.reading is None

    @property
    def is_settled(self) -> bool:
        """Whether nothing is left to do about it in this step."""
        settled = self.verdict in (None, Verdict.GOOD, Verdict.PAST_STEP) or self.is_good_by_eye
        return not (self.is_open or self.is_against_metal or self.for_stone) and settled

    @property
    def is_against_metal(self) -> bool:
        """Whether its reading was stood by though no work of the step could make it."""
        return self.reading is not None and self.reading.against_metal

    @property
    def is_good_by_eye(self) -> bool:
        """Whether an eye that sees it inside its limits is all that can be had of it."""
        return self.reading is not None and self.reading.is_good_by_eye

    @property
    def is_questioned(self) -> bool:
        """Whether its reading waits to be taken again."""
        return self.reading is not None and self.reading.questioned

    @property
    def is_beyond(self) -> bool:
        """Whether it is past what the step can mend."""
        return self.verdict in _BEYOND


def checks_of(
    state: JobState,
    course: Course,
    found: Forecast | None,
    decides: str = "",
    sizes: Sequence[FinishedSize] = (),
    known: Collection[tuple[str, str]] = (),
) -> tuple[Check, ...]:
    """The step's checks in order, then what else was read in it, then what a way back taken in it changed.

    At the end comes the size that `decides`, if one does: nobody has measured it and the verdict hangs on it.
    In the last step so do the `sizes` of the drawing that would be in doubt once the tool is finished. What
    is `known` of a size in the end, by zone and dimension, holds for the step after which none works it.
    """
    told = {size.name: size.expected for size in sizes if (size.zone, size.dimension) in known}
    unsure = _never_measured(state, course, sizes)
    read = (f"{one.mark.reading.zone}.{one.mark.reading.dimension}" for one in course.outcomes)
    changed = to_measure(state)
    others = (*cheeks_off_the_middle(state, course), *across_that_decides(course), *other_tines(course))
    instead = quenched_instead(state.plan.recipe, course)
    own, untold = ((), set[str]()) if instead else (course.step.checks, {*unasked_hardness(course.step)})
    asked = (*own, *others, *asked_for(state, course), *read, *changed, decides, *unsure)
    aside = _set_aside(course)
    wished = (name for name in (*asked, *sorted(untold)) if name and name.rpartition(".")[0] not in aside)
    found_so = (_check(state, course, found, name) for name in dict.fromkeys(wished))
    asked_so = [one._replace(optional=True) if one.name in untold else one for one in found_so]
    checks = _meant_for_another(state, course, asked_so)
    later = [state.plan.by_step[step.number] for step in state.plan.recipe.steps[course.step.number :]]
    return tuple(
        one._replace(expected=told[one.name])
        if one.name in told
        and one.reading is None
        and not any(one.zone in stages and stages[one.zone].works(one.dimension) for stages in later)
        else one
        for one in checks
    )


def _set_aside(course: Course) -> set[str]:
    """The zones of a piece that was spoiled in a step: it is made anew, and nothing of it is measured now."""
    ways = (mark.amendment for mark in course.marks if isinstance(mark, AmendmentMark))
    return {one.zone for way in ways for one in way.cut_anew}


def _meant_for_another(state: JobState, course: Course, checks: Sequence[Check]) -> Iterator[Check]:
    """The checks, each that is questioned with the size that its reading fits: a number one row astray."""
    for check in checks:
        astray = check.is_questioned and check.kind is not Kind.TEST  # no number answers a test
        last = course.last(check.zone, check.dimension) if astray else None
        others = (one for one in checks if one.kind is check.kind and one.name != check.name and one.is_open)
        wanted = ((one, one.wanted.limits) for one in others if last is not None and one.wanted is not None)
        meant = (
            one.name
            for one, limits in wanted
            if last is not None and may_be_of(state, course, last, one.zone, one.dimension, limits)
        )
        yield check._replace(fits=next(meant, ""))


def unasked_hardness(step: Step) -> Iterator[str]:
    """The hardness that a step is to leave though it asks for no reading of it: few have a tester."""
    if "hardness" in step.targets:
        yield from (name for zone in step.zones if (name := f"{zone}.hardness") not in step.checks)


def judged_anew(before: JobState, now: JobState, read: Reading) -> tuple[Check, ...]:
    """The sizes, but that of a reading, of which its entry makes something else than what was told of them.

    They are questioned now, count after all, are old, or have another verdict: the row has what is told last.
    """
    was = {(course.step.number, size): told for course, size, told in _read_last(before)}
    return tuple(
        _check(now, course, None, ".".join(size))
        for course, size, told in _read_last(now)
        if size != (read.zone, read.dimension)
        if was.get((course.step.number, size), told) != told
    )


def _read_last(state: JobState) -> Iterator[tuple[Course, tuple[str, str], tuple[object, ...]]]:
    """The last reading of each size in each step: its entry, and what it was found to be."""
    for course in state.courses():
        last = {one.mark.reading[:2]: one for one in course.outcomes}
        for size, one in last.items():
            judged = as_it_is_now(state, course.step, one) if one.counts else None
            verdict = judged.verdict if judged is not None else None
            yield course, size, (one.mark.entry, one.questioned, one.old, verdict)


def _never_measured(state: JobState, course: Course, sizes: Sequence[FinishedSize]) -> list[str]:
    """The sizes that must be measured before the last step ends, the least sure first."""
    if course.step.number < len(state.plan.recipe.steps):
        return []
    unsure = [size for size in sizes if not size.measured and size.chance < ON_PLAN_CHANCE]
    there = [size for size in unsure if course.now.zones[size.zone].has_form]
    return [size.name for size in sorted(there, key=lambda size: size.chance)]


def _check(state: JobState, course: Course, found: Forecast | None, name: str) -> Check:
    step = course.step
    zone, dimension = name.split(".", 1)
    kind = kind_of(step, dimension)
    limits: Limits | None = None
    expected: Estimate | None = None
    if kind is Kind.MASS:
        expected = expected_mass(state.plan, course.now, step, zone, dimension)
    elif kind is Kind.TEST:
        limits = PASSED
    elif dimension != MARK and (dimension in operation(step.operation).EXTRAS or kind is Kind.HARDNESS):
        limits = wanted_beside(state.plan, step, zone, dimension, course.outcomes)
        if dimension in ALIKE and (cheeks := cheeks_of(course.now, zone)) is not None:
            limits = limits or cheeks.each
            other = other_read(zone, dimension, course.outcomes)
            expected = cheeks.other_of(other) if other is not None else None
    elif dimension == OTHER_TINE and dimension not in course.now.zones[zone].shape.dimensions:
        limits = wanted_beside(state.plan, step, zone, dimension, course.outcomes)
    elif dimension in (*course.now.zones[zone].shape.dimensions, MARK):
        after = found.after.get(step.number) if found is not None else None
        unread = after is not None and not course.is_read(zone, dimension) and after.zones[zone].has_form
        # Until it is read it is expected as the step's end is to leave it: of that moment this speaks, too.
        then = after if after is not None and unread else course.now
        limits, _ = wanted(state.plan, then, step, zone, dimension)
        limits = once_worked(state.plan, step, zone, dimension, limits) if then is after else limits
        limits = wanted_in_section(state.plan, course, zone, dimension) or limits
        limits = marked_there(limits, state.plan, then, step, (zone, dimension), course.marks)
        if (zone, dimension) in cut_to_size(course):  # no metal of it is for anything else any more
            limits = state.plan.recipe.drawing[zone].limits.get(dimension, limits)
        over = over_from(state.plan, step, zone, dimension, limits) if limits is not None else None
        if over is not None and limits is not None and limits.nominal > over.high:
            limits = over  # what its section makes of it is longer than the drawing allows
        expected = expected_size(after, zone, dimension) if after is not None else None
        expected = across_by_cheeks(course, zone, dimension) or expected
    outcome = as_marked_then(state, course, course.last(zone, dimension))
    finished = step.number <= len(state.records)  # what was drawn anew since asks nothing of it
    if outcome is not None and outcome.limits is not None and (outcome.counts or finished):
        limits = outcome.limits  # what the verdict beside it goes by
    reading = None
    if outcome is not None:
        coarse = too_coarse_before(state, outcome.mark.entry)
        outcome = outcome._replace(judged=as_it_is_now(state, course.step, outcome))
        reading = _reading(outcome, course, state.counted[outcome.mark.entry], kind, coarse)
        if finished and reading.judged is not None:
            reading = reading._replace(judged=reading.judged._replace(heats=0))  # none are to come in it
    made_on = steel_of(state.plan, step, zone, dimension) if kind is Kind.TEST else None
    tempered = made_on is MadeOn.TEMPERED
    if kind is Kind.HARDNESS:
        treated = treatment_before(state.plan, step, zone)
        tempered = treated is not None and treated.does(Does.TEMPERS)
    check = Check(
        name=name,
        zone=zone,
        dimension=dimension,
        kind=kind,
        wanted=Wanted(limits, kind) if limits is not None else None,
        expected=Figure(expected.value, kind, expected.doubt) if expected else None,
        reading=reading,
        verdict=reading.judged.verdict if reading is not None and reading.judged is not None else None,
        how="",
        gauge=usual_gauge(state.plan.recipe, step, zone, dimension) if kind in BY_GAUGES else "",
        waits_for=_waits_for(state, course.step, zone, dimension) if kind is Kind.TEST and reading else 0,
        if_out=after_out(state.plan, step, outcome),
        tempered=tempered,
        left_soft=made_on is MadeOn.SOFT,
        made_on=made_on,
    )
    return check._replace(how=check.test.how) if kind is Kind.TEST else check


def _waits_for(state: JobState, made_at: Step, zone: str, test: str) -> int:
    """The number of the step ahead that treats the zone of a test first; 0 where none is to."""
    from coach.ledger.remedies.base import Failed

    failed = Failed(zone, test, made_at.number, below=True)
    step = failed.waits_for(state.plan.recipe.steps, len(state.records))
    return step.number if step is not None else 0


def as_it_is_now(state: JobState, step: Step, outcome: Outcome) -> Judged | None:
    """What a reading of a step was found to be; where the step is finished there is no more to go in it.

    What no step from the one in hand on works is then out, or too near its limit to be sure of.
    """
    judged, reading, done = drawn_ahead(state, step, outcome), outcome.mark.reading, len(state.records)
    if judged is None or judged.verdict is not Verdict.MORE_TO_GO or step.number > done:
        return judged
    stages = (state.plan.by_step[one.number].get(reading.zone) for one in state.plan.recipe.steps[done:])
    works = any(stage is not None and stage.works(reading.dimension) for stage in stages)
    return judged if works else left_over(step, outcome)


def _reading(outcome: Outcome, course: Course, entry: Entry, kind: Kind, coarse: set[str]) -> SizeRead:
    reading, surprise, bound = outcome.mark.reading, outcome.surprise, outcome.bound
    read = entry.body
    assert isinstance(read, Reading)
    possible = Figure(bound.size_mm, kind, bound.doubt_mm) if bound is not None else None
    size = cold = counted = Figure(reading.size_mm, kind)
    looked_for = None
    if surprise is not None:
        own = surprise.cold if outcome.together is None else cold_reading(reading)
        cold = Figure(own.size_mm, kind, own.doubt_mm)
        counted = Figure(surprise.cold.size_mm, kind, surprise.cold.doubt_mm)
        looked_for = Figure(surprise.expected.value, kind, surprise.expected.doubt)
    stood = stood_before(outcome, course)
    stood_cold = Figure(stood.mark.reading.size_mm, kind) if stood is not None else cold
    return SizeRead(
        entry=entry.number,
        typed=read.typed,
        size=size,
        cold=cold,
        hot=None if reading.hot_c is None else celsius(reading.hot_c, reading.hot_doubt_c),
        gauge=reading.gauge,
        questioned=outcome.questioned and not outcome.old,
        insisted=outcome.mark.insisted,
        at=moment_of(entry),
        looked_for=looked_for,
        least_possible=possible if bound is not None and bound.is_least else None,
        most_possible=possible if bound is not None and not bound.is_least else None,
        in_section=bound is not None and bound.in_section,
        old=outcome.old,
        judged=judgement_of(outcome, course, counted, kind, coarse) if outcome.counts else None,
        against=outcome.against,
        replaces=replaced_hardness(outcome, course) if kind is Kind.HARDNESS and outcome.counts else None,
        against_metal=is_against_metal(outcome),
        stands=standing_beside(outcome, course, kind),
        stands_judged=judgement_of(stood, course, stood_cold, kind, coarse) if stood is not None else None,
        refused=outcome.questioned and outcome.old,
        outweighs=outweighed(outcome, course) if kind is Kind.LENGTH else None,
        mean=mean_read(outcome) if kind is Kind.LENGTH else None,
        outvotes=outvoted_by(outcome, course) if kind is Kind.LENGTH else (),
        scattered=scattered_over(outcome) if kind is Kind.LENGTH else (),
    )
