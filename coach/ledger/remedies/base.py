"""What every remedy has in common: it looks at where the job stands and has ideas."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import Enum
from types import MappingProxyType
from typing import ClassVar, NamedTuple

from coach.ledger.amendment import Amendment, Regained
from coach.ledger.course import Course, HeatMark, Mark, Outcome, ReadingMark, left_as_read
from coach.ledger.forecast import Forecast
from coach.ledger.hottest_temper import ReadIn
from coach.ledger.laid_steel import SteelLeft
from coach.ledger.plan import Plan, finished_form
from coach.ledger.skinning import Skin
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState, SizeState
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece, volume_slope
from coach.ledger.zone_forecast import FinishedSize, ZoneForecast
from coach.operations import Does, operation
from coach.operations.measures import MARK
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import COVERAGE, NOTHING, Words, run_on, say
from coach.quantities.normal import quantile
from coach.recipe.model import Step

#: What treats the steel where it is done, and nowhere else.
TREATS = (Does.QUENCHES, Does.TEMPERS)


class Failed(NamedTuple):
    """A test that failed, or a hardness or a heat of hardening that was wrong, and was not mended since."""

    zone: str
    dimension: str
    step: int  # number of the step it was made at
    below: bool  # on the low side of what was wanted
    entry: int = 0  # of the reading
    treatment: Does | None = None  # what was done too hot, cold, long or short; None where it is not that
    tacked: bool = False  # whether it is of a tack, which holds until the weld and is no weld
    burnt: bool = False  # whether the heat that was wrong may have burnt it: no other heat mends that
    doubted: bool = False  # whether it was only in doubt when it was made again
    in_fire: bool = False  # whether nobody has made it since a fire that drew its zone

    @property
    def name(self) -> str:
        """As a checkpoint asks for it."""
        return f"{self.zone}.{self.dimension}"

    @property
    def spoils(self) -> bool:
        """Whether it can mean that the piece is lost."""
        return not self.tacked and self.dimension in SHOP_TESTS and SHOP_TESTS[self.dimension].spoils

    @property
    def is_too_hard(self) -> bool:
        """Whether it is a hardness over what was wanted."""
        return self.treatment is None and self.dimension not in SHOP_TESTS and not self.below

    @property
    def is_too_soft(self) -> bool:
        """Whether it tells that a quench left the steel soft, whatever its heat was."""
        if self.treatment is not None:
            return False
        test = SHOP_TESTS.get(self.dimension)
        return Does.QUENCHES in self.mended_by and (test is None or not test.not_yet)

    @property
    def was_softened(self) -> bool:
        """Whether it tells of steel that is softer than wanted, or that a temper was too hot for."""
        if self.treatment is not None:
            return self.treatment is Does.TEMPERS and not self.below
        return self.dimension not in SHOP_TESTS and self.below

    @property
    def mended_by(self) -> tuple[Does, ...]:
        """What mends it, the gentlest first; none where nothing does.

        Steel that was hardened at a wrong heat, or tempered too soft, is hardened again.
        """
        if self.burnt:
            return ()
        if self.treatment is not None:
            return (Does.TEMPERS,) if self.treatment is Does.TEMPERS and self.below else (Does.QUENCHES,)
        if self.dimension in SHOP_TESTS:
            test = SHOP_TESTS[self.dimension]
            return (Does.QUENCHES,) if test.not_yet else test.mended_by
        return (Does.QUENCHES,) if self.below else (Does.TEMPERS,)

    def is_met_by(self, steps: Sequence[Step], done: int) -> bool:
        """Whether, `done` of the steps, one put in to mend it is ahead, or the first to treat its zone."""
        return (
            self.waits_for(steps, done) is not None
            or any(
                step.again
                and step.number != self.step
                and self.name in step.checks
                and self.mended_by  # a crack is looked for again after a new quench, and not closed by it
                and (self.treatment is None or any(map(step.does, self.mended_by)))
                for step in steps[done:]
            )
        )

    def waits_for(self, steps: Sequence[Step], done: int) -> Step | None:
        """The step ahead that hardens or tempers its zone first, where the test was made before that."""
        if self.treatment is not None:
            return None
        for what in self.mended_by:
            first = next((step for step in steps if step.does(what) and self.zone in step.zones), None)
            if what in TREATS and first is not None and first.number > max(self.step, done):
                return first
        return None


def zones_wrong(found: Forecast) -> frozenset[str]:
    """The zones that may not come out as drawn."""
    return frozenset(zone.zone for zone in found.zones.values() if zone.chance < ON_PLAN_CHANCE)


#: The forms that a bar's end is drawn to, as operations declare them; empty for any.
_DRAWN_TO = frozenset({"", "taper"})
#: What a job is brought to whose metal is short in one zone: on plan, and a little more (judgement).
_AIMED_AT = ON_PLAN_CHANCE + 0.005
#: No zone is given metal for a greater chance than this, whatever else keeps the job from it (judgement).
_SUREST = 0.999


class Situation(NamedTuple):
    """Where a job stands, as a remedy sees it."""

    plan: Plan  # with what was changed by those taken before
    start: Workpiece  # before the step in hand
    course: Course | None  # the step in hand; None when every step is done
    found: Forecast
    verdict: PlanState  # what the job is called
    chance: float  # that the job makes the drawing, as it is told
    heats_so_far: int
    failed: tuple[Failed, ...] = ()
    wrong_marks: tuple[Outcome, ...] = ()  # out of their places, on a bar that is not shaped there yet
    short_steels: tuple[SteelLeft, ...] = ()  # of which too little will be left, for some was lost
    short_skins: tuple[Skin, ...] = ()  # deeper than what a step ahead grinds off, as things stand
    #: sizes, by zone, that only seem wrong by others that do not agree: one of them is measured first
    unmeasured: frozenset[tuple[str, str]] = frozenset()
    told: Mapping[str, FinishedSize] = MappingProxyType({})  # the sizes as they are told, by name
    burnt: tuple[str, ...] = ()  # zones that may be burnt
    own: OwnCurves = NOT_TAUGHT  # the smith's own tempering curves
    read_in: ReadIn = ()  # the steps of the job with what was read in each
    left_wrong: tuple[tuple[str, str, Words], ...] = ()  # what is out apart from the metal, and what mends it
    left_over: Mapping[str, float] = MappingProxyType({})  # mm of bars as they are now
    another_bar: Callable[[str, float], str] | None = None  # of the rack, for so many mm of a piece

    @property
    def now(self) -> Workpiece:
        """The workpiece as it is."""
        return self.course.now if self.course is not None else self.start

    @property
    def next_step(self) -> int:
        """The number of the step in hand, or one beyond the last."""
        return self.course.step.number if self.course is not None else len(self.plan.recipe.steps) + 1

    def left(self, size: FinishedSize) -> Workpiece:
        """The workpiece as a size is looked at: at the end of the step in hand where that leaves it."""
        if self.course is None or self._is_left(size):
            return self.found.after.get(self.next_step, self.now)
        return self.now

    def unread(self, sizes: Iterable[FinishedSize]) -> list[FinishedSize]:
        """Those of some sizes that are told by reckoning alone."""
        told = (self.told[size.name] for size in sizes if size.name in self.told)
        return [size for size in told if not size.measured]

    def _is_left(self, size: FinishedSize) -> bool:
        return self.course is not None and (size.zone, size.dimension) in left_as_read(self.plan, self.course)

    def short(self) -> list[tuple[ZoneForecast, float]]:
        """The zones whose metal may not be enough, the worst first, each with what it lacks, mm³."""
        found = [zone for zone in self.found.zones.values() if zone.spares]
        short = [zone for zone in found if zone.enough_chance < ON_PLAN_CHANCE]
        if not short:  # any of these alone will do: that which is told as the reason, before the worst
            told = getattr(self.found.reason, "zone", "")
            alone = (zone for zone in found if zone.enough_chance < self._share_of(zone.enough_chance))
            short = sorted(alone, key=lambda zone: (zone.zone != told, zone.enough_chance))[:1]
        return [(zone, self.lacking_mm3(zone)) for zone in sorted(short, key=lambda zone: zone.enough_chance)]

    def surety(self, zone: ZoneForecast) -> float:
        """How many standard uncertainties of metal a short zone is given beyond its least.

        So many that it has enough with 95 % confidence, or with as much more as the job needs to be on plan.
        """
        return max(COVERAGE, quantile(self._share_of(zone.enough_chance)))

    def _share_of(self, chance: float) -> float:
        """The chance that a zone with this one must have, where it alone keeps the job from being on plan."""
        besides = self.chance / chance if chance and self.chance < ON_PLAN_CHANCE else 0.0
        is_alone = ON_PLAN_CHANCE < besides <= 1.0
        return min(_AIMED_AT / besides, _SUREST) if is_alone else ON_PLAN_CHANCE

    def lacking_mm3(self, zone: ZoneForecast) -> float:
        """How much more metal a zone needs to have enough, as surely as `surety` says.

        By its first spare, or by the volume where that asks for more: a section that the steps leave thinner
        than it is drawn makes the length look better than the metal is.
        """
        spare, sure = zone.spares[0], self.surety(zone)
        short_mm = sure * (spare.spare.doubt or 0.0) - spare.spare.value
        by_spare = max(0.0, short_mm) * self.slope_mm3_mm(zone.zone, spare.dimension)
        return max(by_spare, self.extra_mm3(zone))

    def extra_mm3(self, zone: ZoneForecast) -> float:
        """How much more of it by its volume alone."""
        return zone.lacking_mm3(self.surety(zone))

    def slope_mm3_mm(self, zone: str, dimension: str) -> float:
        """Finished volume of a zone for each millimetre of a take-up dimension, mm³/mm."""
        return abs(volume_slope(finished_form(self.plan.recipe, zone), dimension))

    def stuck(self) -> list[FinishedSize]:
        """Finished sizes that no step ahead brings within their limits, so far as they are known."""
        return [size for size in self._seem_stuck() if (size.zone, size.dimension) not in self.unmeasured]

    def _seem_stuck(self) -> list[FinishedSize]:
        """The same, with those that only seem so by others that do not agree."""
        sizes = (size for zone in self.found.zones.values() for size in zone.sizes)
        return [size for size in sizes if size.state is not SizeState.GOOD and not size.take_up]

    def stays_too_long(self, *, settled: bool = False) -> list[FinishedSize]:
        """The lengths that come out over their limits and that no step ahead works; none of hard steel.

        Those that follow from the metal, and with those `settled` such as that of an eye, too.
        """
        if self.is_hard:
            return []
        # A zone is longer for a section that came out too small: what would bring that back is no surplus.
        spent = {size.zone for size in self._seem_stuck() if size.state is SizeState.UNDER}
        return [
            self.told.get(size.name, size)
            for zone in self.found.zones.values()
            if zone.zone not in spent and self.now.zones[zone.zone].has_form
            for size in zone.sizes
            if size.dimension == "length" and (settled or self.now.zones[zone.zone].free == "length")
            if size.state is SizeState.OVER and not self.steps_that_shape(size)
        ]

    def is_met(self, failed: Failed) -> bool:
        """Whether a step ahead mends what failed."""
        return failed.is_met_by(self.plan.recipe.steps, self.next_step - 1)

    def steps_ahead(self) -> Sequence[Step]:
        """The step in hand and those after it."""
        return self.plan.recipe.steps[self.next_step - 1 :]

    def steps_that_shape(self, size: FinishedSize) -> Sequence[Step]:
        """Those of them that work a size still: not that in hand where it leaves it as it was read."""
        ahead = self.steps_ahead()
        stages = ((step, self.plan.by_step[step.number].get(size.zone)) for step in ahead)
        works = [
            step
            for step, stage in stages
            if stage is not None and stage.works(size.dimension) and not stage.leaves(size.dimension)
        ]
        return [step for step in works if step is not ahead[0]] if self._is_left(size) else works

    def _behind(self) -> Sequence[Step]:
        return self.plan.recipe.steps[: self.next_step - 1]

    def is_begun(self, zone: str) -> bool:
        """Whether any step that shapes a zone is done, or has a heat or a size of the zone entered in it.

        A zone that was split is its branches by now.
        """
        if self.now.zones[zone].parted or any(reshapes(step, zone) for step in self._behind()):
            return True
        if self.course is None or not reshapes(self.course.step, zone):
            return False
        return any(isinstance(mark, HeatMark) or _is_of(mark, zone) for mark in self.course.marks)

    @property
    def is_hard(self) -> bool:
        """Whether a step behind has hardened something: what is hard is not hammered any more."""
        return any(step.does(Does.QUENCHES) for step in self._behind())

    def is_hard_at(self, zone: str) -> bool:
        """Whether a step behind has hardened that zone, or steel that lies in it; the rest stays soft."""
        within = {zone, *self.now.zones[zone].parts}
        quenched = (step for step in self._behind() if step.does(Does.QUENCHES))
        return any(within & {*step.zones, *step.heated} for step in quenched)

    def is_ground(self, zone: str) -> bool:
        """Whether a step behind, or the one in hand, grinds or files the zone: no hammer comes to it then."""
        steps = self.plan.recipe.steps[: self.next_step]
        return any(
            operation(step.operation).FIXES and not step.does(Does.CUTS_FREE) and zone in step.zones
            for step in steps
        )

    def is_bent(self, zone: str) -> bool:
        """Whether a step behind, or the one in hand, turns the zone's line: it stands no blow on its end."""
        steps = self.plan.recipe.steps[: self.next_step]
        return any(step.does(Does.BENDS) and zone in step.zones for step in steps)

    def has_shoulder(self, zone: str) -> bool:
        """Whether its marks are past moving: it was shaped otherwise than by opening a hole in the bar."""
        done = [step for step in self._behind() if reshapes(step, zone)]
        here = self.course.step if self.course is not None else None
        if here is not None and reshapes(here, zone) and self.is_begun(zone) and here not in done:
            done.append(here)
        return any((operation(step.operation).FORM or "") != "eyed" for step in done)

    def is_drawn_on_its_bar(self, zone: str) -> bool:
        """Whether it is the end of its bar and was drawn: not cut, ground, bent, opened or set down."""
        here = [self.course.step] if self.course is not None and not self.is_to_be_cut(zone) else []
        behind = (*self._behind(), *here)
        forged = (operation(step.operation) for step in behind if reshapes(step, zone))
        drawn = all(
            not one.FIXES and (one.FORM or "") in _DRAWN_TO and "shoulder" not in one.EXTRAS for one in forged
        )
        at_end = self.plan.recipe.piece_of(zone).zones[0] == zone
        return at_end and drawn and not (self.is_hard or self.is_bent(zone))

    def is_to_be_cut(self, zone: str) -> bool:
        """Whether the step in hand cuts it from its bar, and nothing was done in it yet."""
        here = self.course
        return bool(here and not here.is_begun and here.step.does(Does.CUTS_FREE) and zone in here.step.zones)

    def bar_area_mm2(self, zone: str) -> float:
        """The section of the bar that a zone is marked out on, mm²."""
        return self.plan.bar_of(zone).end_area_mm2("finish")

    def marked_anew(self, zone: str, along_mm: float) -> Regained:
        """The mark at a zone's end, made so much further along the bar; it is where it is made."""
        there = self.now if self.course is not None and self.course.step.does(Does.MARKS_OUT) else self.start
        place_mm = there.size(zone, MARK).value if there.has_mark(zone) else self._mark_mm(zone)
        return Regained(zone, MARK, place_mm + along_mm, self.plan.recipe.mark_doubt_mm)

    def _mark_mm(self, zone: str) -> float:
        """Where its mark lay on the bar, where what was folded or split before it has no length any more."""
        zones = self.plan.recipe.piece_of(zone).zones
        return sum(self.plan.bar_of(one).size_mm("length") for one in zones[: zones.index(zone) + 1])

    def is_in_the_fire(self, zone: str) -> bool:
        """Whether any heat has been taken on a zone, to forge it or only to join it."""
        if any(step.heats and zone in step.heated for step in self._behind()):
            return True
        here = self.course if self.course is not None and zone in self.course.step.heated else None
        return here is not None and any(isinstance(mark, HeatMark) for mark in here.marks)


def _is_of(mark: Mark, zone: str) -> bool:
    return isinstance(mark, ReadingMark) and mark.reading.zone == zone


class Soundness(Enum):
    """How far a way back can be trusted, the best first."""

    SOUND = "good practice"
    WITH_CARE = "with care"
    DOUBTFUL = "doubtful: test it"
    LAST_RESORT = "the last resort"


class Idea(NamedTuple):
    """One way back, before it is reckoned, in its own words."""

    about: str  # the size or zone it is about, as "blade.length"
    title: Words  # what to do, in a few words
    changes: Words  # what changes and by how much, one sentence
    amendment: Amendment
    heats: int = 0  # extra heats
    price_mm: float = 0.0  # what the tool gives up, for ranking
    caution: Words = NOTHING  # why it may not be sound, or what to take care of
    outside: bool = False  # whether it gives up something that the drawing asks for
    gives: Words = NOTHING  # what it gives up of that, in few words: "0.5 mm under"
    again: bool = False  # whether it starts a new piece
    off_rack: str = ""  # the bar of the rack that its metal comes from, where that is not the piece's own
    at_once: bool = False  # whether nothing else is done before it: a weld that is open is welded
    unread: bool = False  # whether it goes by a size that was only reckoned: that is measured first

    def after_measuring(self, unread: Sequence[FinishedSize]) -> Idea:
        """The same, measuring first what it goes by and nobody read: what is cut off does not grow again."""
        if not unread:
            return self
        labels = run_on((size.label for size in unread), " and the ")
        return self._replace(title=say("Measure the {} first. {}", labels, self.title), unread=True)


class Remedy(ABC):
    """One kind of way back; a subclass in its own file says when and how."""

    NAME: ClassVar[str]
    HELPS: ClassVar[bool] = True  # offered only where less is wrong with it
    SOUNDNESS: ClassVar[Soundness] = Soundness.SOUND

    @abstractmethod
    def ideas(self, situation: Situation) -> Iterable[Idea]:
        """What could be done in this way; none when it does not apply."""
