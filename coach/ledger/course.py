"""A step as far as it has gone: what was entered in it, and what became of every reading."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from math import ceil, hypot, inf
from typing import NamedTuple

from coach.forms import Form
from coach.ledger.amendment import Amendment
from coach.ledger.degrees import outside_share
from coach.ledger.heats import left_shares
from coach.ledger.plan import Plan
from coach.ledger.possible import Bound
from coach.ledger.reading import Reading, Surprise
from coach.ledger.spreading import UNTAUGHT, Taught
from coach.ledger.verdict import Judged, Verdict
from coach.ledger.wanting import over_from, wanted
from coach.ledger.working import targets_of
from coach.ledger.workpiece import Workpiece, size_name
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.operations.measures import HARDNESS, MASS, SLUG
from coach.operations.shape import NOTHING
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import COVERAGE, Limits, Words
from coach.quantities import NOTHING as NO_WORDS
from coach.recipe.model import Step

#: Of a size in a step: the work left there leaves it alone, or cannot put it right.
_LEFT_AS_READ = frozenset({Verdict.GOOD, Verdict.PAST_STEP, Verdict.GONE_PAST, Verdict.OUT})


class HeatMark(NamedTuple):
    """One heat of the step."""

    entry: int
    minutes: float | None = None  # hot in the fire, where that was logged
    lay_s: float | None = None  # how long it lay there by the clock; None where that was not used
    sent_back: bool = False  # too short to quench from, and the piece went back in: no heat of its own


class ReadingMark(NamedTuple):
    """One reading taken during the step."""

    entry: int
    reading: Reading
    insisted: bool = False
    is_believed: bool = False  # by the step as it goes: it is not held against its end once more

    @property
    def stands(self) -> bool:
        """Whether it counts, whatever was looked for."""
        return self.insisted or self.is_believed


class AmendmentMark(NamedTuple):
    """A way back taken, or metal lost; its plan is already the one that the step is followed by."""

    entry: int
    amendment: Amendment
    is_loss: bool = False  # metal that is gone, and no size brought where it is wanted


Mark = HeatMark | ReadingMark | AmendmentMark


def is_worked_in(step: Step, marks: Iterable[Mark]) -> bool:
    """Whether anything was entered of a step's own work.

    Before the first heat of one that is forged hot, a test that it does not ask for is of what was done
    before it: a weld that is tried there is closed before its metal is punched. What asks for other sizes,
    as for those of a haft, does nothing to the metal.
    """
    marks = [mark for mark in marks if not (isinstance(mark, AmendmentMark) and mark.amendment.is_of_drawing)]
    if not step.heats or step.heat_kind is not HeatKind.FORGING:
        return bool(marks)
    return not all(isinstance(mark, ReadingMark) and _is_of_before(step, mark.reading) for mark in marks)


def _is_of_before(step: Step, reading: Reading) -> bool:
    name = f"{reading.zone}.{reading.dimension}"
    return name not in step.checks and reading.dimension in (*SHOP_TESTS, HARDNESS)


def heats_in(marks: Iterable[Mark]) -> int:
    """How many heats were taken: one that was sent back in is part of the one that follows it."""
    return sum(isinstance(mark, HeatMark) and not mark.sent_back for mark in marks)


class Together(NamedTuple):
    """Readings of one size with no heat between that count as one."""

    of: tuple[ReadingMark, ...]  # as they were typed
    mean_mm: float  # cold
    scattered: bool = False  # whether no two of them agree


class Outcome(NamedTuple):
    """What became of one reading."""

    mark: ReadingMark
    surprise: Surprise | None = None  # None for a size that is no part of the metal account, such as an angle
    judged: Judged | None = None  # None when nothing is wanted of the size
    limits: Limits | None = None
    questioned: bool = False  # not believed yet: take it again
    taught: Taught = UNTAUGHT  # what it says of the shop
    run_wide: bool = False  # spread beyond what is wanted, and can be dressed back
    bound: Bound | None = None  # what it lies beyond that is possible at all
    old: bool = False  # a heat has worked the size since, or drawn it
    drawn: bool = False  # a fire that no step needs drew it before: it says nothing of its treatment
    soaked: Limits | None = (
        None  # what is wanted of a soak, where a run of colours is held to what does the same
    )
    outdone_by: Reading | None = None  # an earlier reading of the same treatment that was more, and counts
    too_hot: bool = False  # of a soak: whether its heat was so far over its own that the grain grew
    soaked_s: float | None = None  # of a temper's heat: for how long, as it was read; None where it was not
    other_mm: float | None = None  # of a cheek: the other as it was read, cold; None where it was not
    mean_of: int = 1  # of how many hardnesses of one treatment it is judged by the mean
    mean_hrc: float = 0.0  # that mean, where they are more than one
    against: Words = NO_WORDS  # what else was read that it contradicts, where it is questioned for that
    together: Together | None = None  # those that it counts with; its surprise and its verdict are of all
    outvoted: bool = False  # others of the same size, with no heat between, agree against it

    @property
    def verdict(self) -> Verdict | None:
        """What it means for its size; None when nothing is wanted of that."""
        return self.judged.verdict if self.judged is not None else None

    @property
    def counts(self) -> bool:
        """Whether it is believed, and no heat has worked the size since."""
        return not (self.questioned or self.old)


class Course(NamedTuple):
    """A step as far as it has gone."""

    step: Step
    start: Workpiece
    now: Workpiece
    heats: float  # marked so far, or taken without a mark before its readings, as surely as they were
    outcomes: tuple[Outcome, ...]
    marks: tuple[Mark, ...]
    scaling: Mapping[str, Form] = NOTHING  # those of the zones that its heats scale
    doubted: frozenset[int] = frozenset()  # entries of readings that a later one speaks against

    @property
    def is_begun(self) -> bool:
        """Whether anything was entered that says something of the metal."""
        believed = any(one.surprise is not None and not one.questioned for one in self.outcomes)
        return believed or any(not isinstance(mark, ReadingMark) for mark in self.marks)

    def up_to(self, entry: int) -> Course:
        """The same, without what was read after this entry's place."""
        entries = [one.mark.entry for one in self.outcomes]
        place = entries.index(entry) + 1 if entry in entries else None
        return self._replace(outcomes=self.outcomes[:place])

    def last(self, zone: str, dimension: str) -> Outcome | None:
        """The latest reading of a size in this step, questioned or not."""
        for outcome in reversed(self.outcomes):
            reading = outcome.mark.reading
            if (reading.zone, reading.dimension) == (zone, dimension):
                return outcome
        return None

    def is_read(self, zone: str, dimension: str) -> bool:
        """Whether a size was read in this step, but for what is in question and counts for nothing."""
        read = (one.mark.reading[:2] for one in self.outcomes if not one.questioned)
        return (zone, dimension) in read


def asked_names(plan: Plan, step: Step) -> frozenset[str]:
    """The settled sizes that a step works to, as the belief names them; not those that only go with one."""
    found = set()
    for stage in plan.by_step[step.number].values():
        for dimension in targets_of(step, stage.zone):
            if dimension == stage.after.free or dimension in stage.after.linked:
                continue
            if dimension in stage.after.shape.dimensions and not stage.leaves_across(dimension):
                found.add(size_name(stage.zone, dimension))
    return frozenset(found)


def read_names(plan: Plan, course: Course) -> set[str]:
    """The belief's names for the sizes that were read in a step and believed."""
    believed = (one.mark.reading for one in course.outcomes if not one.questioned)
    return {believed_name(plan, course.step, reading) for reading in believed}


def left_as_read(plan: Plan, course: Course, *, surely: bool = True) -> frozenset[tuple[str, str]]:
    """The sizes, by zone and dimension, that the step in hand leaves as they were read last.

    Where not `surely`, also what it may leave so: that counts by its share.

    They are good, or out and no work of it puts them right. What the metal makes is so once nothing of its
    section is open any more; where it is too long already, or only saw, file and stone work, at once.
    """
    latest = {(one.mark.reading.zone, one.mark.reading.dimension): one for one in course.outcomes}
    found = {size: one for size, one in latest.items() if one.counts and _is_left(plan, course, one, surely)}
    settled = {believed_name(plan, course.step, one.mark.reading) for one in found.values()}
    cut = _cut_to_size(course)
    open_zones = {name.rsplit(".", 1)[0] for name in to_settle(plan, course) - settled} - cut
    fixes = operation(course.step.operation).FIXES
    stages = plan.by_step[course.step.number]
    return frozenset((zone, stages[zone].after.free) for zone in cut if zone in stages) | frozenset(
        (zone, dimension)
        for (zone, dimension), one in found.items()
        if fixes
        or zone not in open_zones
        or zone not in stages
        or dimension != stages[zone].after.free
        or (one.verdict is Verdict.OUT and one.judged is not None and not one.judged.below)
    )


def to_settle(plan: Plan, course: Course) -> set[str]:
    """The sizes of a step that must be read and left before what their metal makes stays as it was read.

    Where a step asks for readings of a zone's section, they are those, and what was read besides: finished,
    the step leaves the rest as these readings say. Where it asks for none, all that it works to.
    """
    step, stages = course.step, plan.by_step[course.step.number]
    asked = asked_names(plan, step)
    checks = (name.rsplit(".", 1) for name in step.checks)
    named = {size_name(zone, stages[zone].after.leader(dim)) for zone, dim in checks if zone in stages}
    checked = {name.rsplit(".", 1)[0] for name in asked & named}
    wanted = named | read_names(plan, course)
    return {name for name in asked if name in wanted or name.rsplit(".", 1)[0] not in checked}


def stays_as_read(
    plan: Plan, course: Course, left: Collection[tuple[str, str]], shares: Mapping[str, float]
) -> dict[str, float]:
    """The zones whose metal stays as it was read, by how surely the step in hand leaves their section too.

    Those whose free dimension is `left` as it was read; of their section as surely as the least sure of what
    must be left there, by the `shares` of the sizes that no heat has worked since. What is too long already
    stays by as much as that is sure.
    """
    stages, cut, needed = plan.by_step[course.step.number], _cut_to_size(course), to_settle(plan, course)
    found: dict[str, float] = {}
    for zone, stage in stages.items():
        last = course.last(zone, stage.after.free)
        gathered = stage.shrinks(stage.after.free)  # what is too long goes into the section still
        share = _too_long_share(plan, course, last) if last is not None and not gathered else 0.0
        too_long = _is_too_long(last) and not gathered and (share or zone not in cut)
        if (zone, stage.after.free) in left and not too_long:
            mine = [name for name in needed if name.rsplit(".", 1)[0] == zone and name in shares]
            share = 1.0 if zone in cut else max(share, min((shares[name] for name in mine), default=1.0))
            if last is not None and zone not in cut and last.verdict is not Verdict.OUT:
                share *= 1.0 - _to_go_share(plan, course, last)
        elif last is not None and last.verdict is Verdict.MORE_TO_GO:
            verdicts = _section_verdicts(plan, course, zone)
            if verdicts is None:  # what must be read of it may be left so all the same
                least = [shares.get(name, 0.0) for name in needed if name.rsplit(".", 1)[0] == zone]
                share = min(least, default=0.0) * (1.0 - _to_go_share(plan, course, last))
            elif verdicts and verdicts <= {Verdict.GOOD, Verdict.UNSURE}:
                share = 1.0 - _to_go_share(plan, course, last)
        if share:
            found[zone] = share
    return found


def _is_too_long(outcome: Outcome | None) -> bool:
    judged = outcome.judged if outcome is not None else None
    return judged is not None and judged.verdict is Verdict.OUT and not judged.below


def _too_long_share(plan: Plan, course: Course, outcome: Outcome) -> float:
    """How surely a size is over its limit, where no work of its step makes it less: certain where it is out.

    From a guard band inside on, for the two cases that are mixed by it lie far apart; for the same reason the
    rest of it fades with its square: the doubt of the mixture goes by the root. Inside, a length may be told
    by the least that suffices alone: the most that it may be is the same there. What is more than the metal
    makes of the section is so only as surely as that is known, and no guard band inside.
    """
    judged, limits, surprise = outcome.judged, outcome.limits, outcome.surprise
    if judged is None or limits is None or surprise is None or not outcome.counts:
        return 0.0
    if judged.verdict not in (Verdict.GOOD, Verdict.UNSURE, Verdict.OUT):
        return 0.0
    zone, dimension = outcome.mark.reading[:2]
    limits = over_from(plan, course.step, zone, dimension, limits) or limits
    doubt_mm, bound = surprise.cold.doubt_mm, outcome.bound
    if bound is not None and bound.in_section and limits.high == bound.size_mm:
        share = outside_share(surprise.cold.size_mm - limits.high, hypot(doubt_mm, bound.doubt_mm))
        return 1.0 - (1.0 - share) ** 2
    share = outside_share(surprise.cold.size_mm - limits.high + COVERAGE * doubt_mm, 2.0 * doubt_mm)
    return 1.0 - (1.0 - share) ** 2


def _to_go_share(plan: Plan, course: Course, outcome: Outcome) -> float:
    """How surely what the metal makes has more to go as it was read, by what its section may give it yet.

    Certain where it would be out for the drawing, a guard band beyond its limit. Where all of its section was
    read, only as surely as that holds the metal for it.
    """
    judged, limits, surprise = outcome.judged, outcome.limits, outcome.surprise
    if judged is None or not judged.below or limits is None or surprise is None or not outcome.counts:
        return 0.0
    (zone, dimension), cold = outcome.mark.reading[:2], surprise.cold
    to_go = outside_share(limits.low - cold.size_mm, cold.doubt_mm)
    if to_go and _section_verdicts(plan, course, zone) is not None:
        least, _ = wanted(plan, course.now, course.step, zone, dimension)
        short_mm = least.low - cold.size_mm if least is not None else inf
        return max(0.0, to_go - outside_share(short_mm, cold.doubt_mm))
    return to_go


def _section_verdicts(plan: Plan, course: Course, zone: str) -> set[Verdict | None] | None:
    """What was found of the section of a zone that the step works; None where not all of it was read."""
    asked = {name for name in asked_names(plan, course.step) if name.rsplit(".", 1)[0] == zone}
    read = {believed_name(plan, course.step, one.mark.reading): one for one in course.outcomes if one.counts}
    return {read[name].verdict for name in asked} if asked <= read.keys() else None


def _is_left(plan: Plan, course: Course, outcome: Outcome, surely: bool) -> bool:
    """Whether the work left leaves a size alone; so it does one that may be outside, where none mends it."""
    if outcome.verdict is not Verdict.UNSURE:
        return outcome.verdict in _LEFT_AS_READ
    name = believed_name(plan, course.step, outcome.mark.reading)
    if name not in asked_names(plan, course.step):
        return True
    share = left_shares(plan, course.now, course.step, [name])[name]
    return share == 1.0 if surely else share > 0.0


def _cut_to_size(course: Course) -> frozenset[str]:
    """The zones that a way back brought to size by taking metal off, and no heat or hammer comes to since."""
    found: frozenset[str] = frozenset()
    for mark in reversed(course.marks):
        if isinstance(mark, HeatMark):
            break
        if isinstance(mark, AmendmentMark) and not mark.is_loss:
            found |= mark.amendment.cut_to_size
    to_go = (one for one in course.outcomes if one.counts and one.verdict is Verdict.MORE_TO_GO)
    return found - {one.mark.reading.zone for one in to_go}


def cut_to_size(course: Course) -> frozenset[tuple[str, str]]:
    """The sizes, by zone and dimension, that a way back brought where they are wanted by taking metal off."""
    zones, marks = _cut_to_size(course), course.marks
    rows = (row for mark in marks if isinstance(mark, AmendmentMark) for row in mark.amendment.regained)
    return frozenset((row.zone, row.dimension) for row in rows if row.zone in zones)


def believed_name(plan: Plan, step: Step, reading: Reading) -> str:
    """The belief's name for the size that a reading settles: that of its leader where it goes with one."""
    if reading.dimension in (MASS, SLUG):
        return size_name(reading.zone, reading.dimension)
    stage = plan.by_step[step.number].get(reading.zone)
    dimension = reading.dimension if stage is None else stage.after.leader(reading.dimension)
    return size_name(reading.zone, dimension)


def heats_to_go(course: Course, outcome: Outcome) -> int:
    """About how many heats a size still needs, by the share of the way left; 0 for work without heats."""
    step, reading = course.step, outcome.mark.reading
    if step.heats == 0 or outcome.limits is None or outcome.surprise is None:
        return 0
    sizes = course.start.form(reading.zone).sizes_mm()
    shape = course.now.zones[reading.zone].shape
    source = shape.worked_from(reading.dimension, outcome.limits.nominal, sizes)
    if source is None:
        return 1
    whole = outcome.limits.nominal - sizes[source]
    left = outcome.limits.nominal - outcome.surprise.cold.size_mm
    if whole * left < 0.0 or whole == 0.0:
        return 1  # run too wide: dressed back with the next heat
    whole, left = abs(whole), abs(left)
    if left > whole:  # spread wider than it began: it comes down with the heats there still are
        return max(1, step.heats - ceil(course.heats))
    # A quarter of a heat is no heat (judgement).
    return max(1, min(step.heats * 2, ceil(step.heats * left / whole - 0.25)))
