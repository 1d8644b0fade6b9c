"""What a job's file tests and hardness readings make of the tempering curve of each of its steels."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import hypot
from typing import TYPE_CHECKING, NamedTuple

from coach.ledger.course import Course, Outcome
from coach.ledger.hot_work import steels_of
from coach.ledger.hottest_temper import ReadIn, hottest_temper, soaked_at
from coach.ledger.plan import Plan
from coach.ledger.quenched import quenched_to_skate
from coach.ledger.reading import QUESTIONED_BEYOND
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves, row_of
from coach.operations import Does
from coach.operations.shop_test import Result
from coach.quantities.figure import COVERAGE
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

if TYPE_CHECKING:
    from coach.metals.grade_file import Grade
    from coach.metals.own_curve import OwnCurve
    from coach.metals.tempering import Tempered
    from coach.metals.tempering_table import TemperingRow

HARDNESS, FILE_TEST = "hardness", "file_test"

#: Standard uncertainty of a hardness tester of the shop on ground steel, HRC (common practice, no source).
TESTER_DOUBT_HRC = 0.7
#: What is no thicker than this, in mm, hardens right through in its own bath (judgement).
_THIN_MM = 3.0
#: The slope of a curve is taken over so many °C to either side (our choice).
_SLOPE_C = 5.0


class Lesson(NamedTuple):
    """What one reading made of a curve."""

    step: Step
    outcome: Outcome
    moved_hrc: float


class OwnSteel(NamedTuple):
    """One steel's own curve, and how it came about."""

    published: TemperingRow
    curve: OwnCurve
    lessons: tuple[Lesson, ...]


def own_steels(plan: Plan, courses: Iterable[Course], begun: OwnCurves = NOT_TAUGHT) -> tuple[OwnSteel, ...]:
    """Every curve that a reading has moved, in the order of the readings.

    `begun` are the curves that the job began with, which other jobs have taught.
    """
    courses = list(courses)
    read = [(one.step, one.outcomes) for one in courses]
    told = [
        pair for pair in _latest(plan, courses) if pair[1].mark.reading.dimension in (HARDNESS, FILE_TEST)
    ]
    if not told:
        return ()
    from coach.metals.own_curve import untaught

    found: dict[tuple[str, str], OwnSteel] = {}
    for treated, outcome, step in told:
        reading = outcome.mark.reading
        if reading.dimension == FILE_TEST and not (
            is_to_skate(plan, step, reading.zone)
            and (treated.does(Does.TEMPERS) or quenched_to_skate(plan, treated))
        ):
            continue  # it was held to another mark than that of the curve
        for metal in steels_of(plan, treated):
            row = row_of(plan, treated, metal)
            if row is None:
                continue
            name = row.name, str(row.column)
            was = found.get(name) or OwnSteel(row, untaught(row).at_first(begun.get(name)), ())
            ruling = hottest_temper(plan, treated._replace(zones=(reading.zone,)), row, read)
            curve = _taught(was, ruling, metal, outcome, read)
            if curve is not None:
                lesson = Lesson(step, outcome, curve.offset_hrc - was.curve.offset_hrc)
                found[name] = OwnSteel(was.published, curve, (*was.lessons, lesson))
    return tuple(found.values())


def is_to_skate(plan: Plan, step: Step, zone: str) -> bool:
    """Whether a file is to skate over a zone as a step leaves it: over all but what was tempered softer.

    By the hardness that the temper is to leave; where it names none, by the published curve of its heat.
    """
    treated = treatment_before(plan, step, zone)
    if treated is None or not treated.does(Does.TEMPERS):
        return True
    from coach.metals.own_curve import FILE_HRC

    wanted = treated.targets.get(HARDNESS)
    if wanted is not None:
        return wanted.nominal >= FILE_HRC
    for metal in steels_of(plan, treated):
        row = row_of(plan, treated, metal)
        ruling = hottest_temper(plan, treated, row) if row is not None else treated
        expected = expected_hrc(row, ruling, metal, ()) if row is not None else None
        if expected is not None:
            return expected[0] >= FILE_HRC
    return False


def own_curves(plan: Plan, courses: Iterable[Course], begun: OwnCurves = NOT_TAUGHT) -> OwnCurves:
    """The same, by the steel's name and the column, with those that the job began with."""
    taught = own_steels(plan, courses, begun)
    return {**begun, **{(one.published.name, str(one.published.column)): one.curve for one in taught}}


def _latest(plan: Plan, courses: Iterable[Course]) -> Iterator[tuple[Step, Outcome, Step]]:
    """Each hardness and file test that counts, with the treatment it tells of and the step it was read in.

    Of one treatment's zone the last of either counts: a file is tried again on a spot ground clean. A quench
    that was done once more makes history of what was read after the one before it.
    """
    last: dict[tuple[int, str, str], tuple[Step, Outcome, Step]] = {}
    for course in courses:
        for outcome in course.outcomes:
            reading = outcome.mark.reading
            if outcome.questioned or outcome.drawn or reading.dimension not in (HARDNESS, FILE_TEST):
                continue
            treated = treatment_before(plan, course.step, reading.zone)
            if treated is None:
                continue
            if treated.does(Does.QUENCHES):
                for key in [one for one, (was, *_) in last.items() if was.does(Does.QUENCHES)]:
                    if key[1:] == (reading.zone, reading.dimension):
                        del last[key]
            last[treated.number, reading.zone, reading.dimension] = treated, outcome, course.step
    yield from last.values()


def treatment_before(plan: Plan, step: Step, zone: str) -> Step | None:
    """The quench or the temper that a zone came from last, up to and with a step."""
    for one in reversed(plan.recipe.steps[: step.number]):
        if zone in one.zones and (one.does(Does.QUENCHES) or one.does(Does.TEMPERS)):
            return one
    return None


def _taught(was: OwnSteel, treated: Step, metal: Grade, outcome: Outcome, read_in: ReadIn) -> OwnCurve | None:
    """The curve after one more reading; None where the table says nothing of what was read."""
    expected = expected_hrc(was.published, treated, metal, read_in)
    if expected is None:
        return None
    hrc, doubt_hrc = expected
    reading = outcome.mark.reading
    if reading.dimension == HARDNESS:
        read_doubt_hrc = hypot(TESTER_DOUBT_HRC, doubt_hrc)
        off_hrc = reading.size_mm - hrc - was.curve.offset_hrc
        if abs(off_hrc) > QUESTIONED_BEYOND * hypot(read_doubt_hrc, was.curve.doubt_hrc):
            return None  # no curve of this steel: the quench did not take, or the skin was tested
        most_hrc = most_read_hrc(was.published, treated, metal, read_in)
        if most_hrc is not None and reading.size_mm > most_hrc:
            return None  # no steel of its kind is so hard: that it may be far softer makes it no harder
        return was.curve.after_tester(hrc, reading.size_mm, read_doubt_hrc)
    result = Result.of(reading.size_mm)
    if result is Result.DOUBT or (result is Result.FAIL and treated.does(Does.QUENCHES)):
        return None  # a quench that did not take tells nothing of what a temper leaves
    return was.curve.after_file(
        hrc,
        skates=result is Result.PASS,
        doubt_hrc=doubt_hrc,
        most_hrc=_through_above_hrc(was.published, metal),
    )


def _through_above_hrc(row: TemperingRow, metal: Grade) -> float:
    """How much harder the same steel is hardened right through, HRC, whatever it is tempered at; 0 or more.

    A file skates over the skin of a thick piece, and makes it no harder than a thin one.
    """
    from coach.metals.tempering_table import tempering_row
    from coach.quantities.between import between

    bath = metal.quench.medium if metal.quench is not None else ""
    through = tempering_row(metal.name, _THIN_MM, bath)
    if through is None or through.column is row.column:
        return 0.0
    (first_c, _), (last_c, _) = through.points[0], through.points[-1]
    inside = [(at_c, hrc) for at_c, hrc in row.points if first_c <= at_c <= last_c]
    return max(min((between(through.points, at_c) - hrc for at_c, hrc in inside), default=0.0), 0.0)


def expected_hrc(
    row: TemperingRow, treated: Step, metal: Grade, read_in: ReadIn
) -> tuple[float, float] | None:
    """What the published curve gives after a treatment, HRC, and how far that is in doubt for its heat."""
    from coach.metals.tempering import quenched_band_hrc, tempered_hrc
    from coach.metals.tempering_table import Column

    if treated.does(Does.QUENCHES):
        if row.column is Column.OIL or metal.carbon_share is None:
            return None  # how hard a bar from oil is before its temper is not published
        low, high = quenched_band_hrc(metal.carbon_share)
        return 0.5 * (low + high), 0.5 * (high - low) / COVERAGE
    soaked = soaked_at(treated, read_in)
    if soaked is None:
        return None
    heat_c, doubt_c, hours = soaked
    try:
        hrc = tempered_hrc(row, heat_c, hours).hrc
    except OutOfRange:
        return None
    return hrc, doubt_c * _slope(row, heat_c, hours)


def most_read_hrc(row: TemperingRow, treated: Step, metal: Grade, read_in: ReadIn) -> float | None:
    """The most that a hardness can be read as after a treatment, HRC; None where that is not published.

    How far it may be harder than is told counts, and not how far softer: a thick bar may be much softer.
    """
    expected = expected_hrc(row, treated, metal, read_in)
    harder_hrc = row.harder_hrc
    if expected is not None and treated.does(Does.TEMPERS):
        tempered = tempered_to(row, treated, read_in)
        harder_hrc = tempered[0].harder_hrc if tempered is not None else harder_hrc
    expected = expected or past_table_hrc(row, treated, read_in)
    if expected is None:
        return None
    return expected[0] + QUESTIONED_BEYOND * hypot(expected[1], TESTER_DOUBT_HRC, harder_hrc / COVERAGE)


def tempered_to(row: TemperingRow, treated: Step, read_in: ReadIn) -> tuple[Tempered, float] | None:
    """What a temper leaves, and how far that is in doubt for its heat, HRC; None past the table's end.

    Below where the table begins it leaves no less than there.
    """
    from coach.metals.tempering import TABLE_HOURS, past_the_table, tempered_hrc

    soaked = soaked_at(treated, read_in)
    if soaked is None:
        return None
    heat_c, doubt_c, hours = soaked
    if past_the_table(row, heat_c, hours):
        return None
    try:
        return tempered_hrc(row, heat_c, hours), doubt_c * _slope(row, heat_c, hours)
    except OutOfRange:
        return tempered_hrc(row, row.points[0][0], TABLE_HOURS), 0.0


def past_table_hrc(row: TemperingRow, treated: Step, read_in: ReadIn) -> tuple[float, float] | None:
    """The most that a temper past the end of its table leaves, HRC, and its doubt; None where it is not."""
    from coach.metals.tempering import TABLE_HOURS, past_the_table

    soaked = soaked_at(treated, read_in) if treated.does(Does.TEMPERS) else None
    if soaked is None:
        return None
    heat_c, doubt_c, hours = soaked
    if not past_the_table(row, heat_c, hours):
        return None
    last_c, last_hrc = row.points[-1]
    return last_hrc, doubt_c * _slope(row, last_c - _SLOPE_C, TABLE_HOURS)


def _slope(row: TemperingRow, heat_c: float, hours: float) -> float:
    """How many HRC a °C more or less makes; 0 at the very end of a table."""
    from coach.metals.tempering import tempered_hrc

    try:
        low, high = (tempered_hrc(row, heat_c + off, hours).hrc for off in (-_SLOPE_C, _SLOPE_C))
    except OutOfRange:
        return 0.0
    return abs(high - low) / (2.0 * _SLOPE_C)
