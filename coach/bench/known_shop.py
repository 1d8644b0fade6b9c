"""The figures of a shop as the jobs before have taught them: for a new job to begin with, and to be told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

from coach.bench.beginnings import Plans, beginning_of
from coach.bench.known_hand import HandTaught, hand_taught_by
from coach.bench.lessons_kept import LessonsKept, OfJob
from coach.bench.replay import replay
from coach.bench.shop_figures import (
    HEATS,
    SCALE_OF_SHOP,
    ShopFigure,
    Taught,
    as_known,
    figures_taught,
    of_plan,
    of_rates,
    readings_in,
    taught_by,
)
from coach.ledger.over_jobs import Known, OverJobs, over_jobs
from coach.log.jobs import Log
from coach.log.kinds.hand_known import LEAST_SIZES, HandKnown
from coach.log.kinds.shop_known import ShopKnown
from coach.metals.grade import grade, keep_to
from coach.recipe.model import Recipe, Scale

if TYPE_CHECKING:
    from coach.log.entries import Entry
    from coach.log.kinds.forged_with import ForgedWith
    from coach.log.newest import Newest
    from coach.remembered import Memory

#: So many jobs teach, those that were last worked; a shop changes, and each is replayed (our choice).
MOST_JOBS = 12
_MOST_LOOKED_AT = 40
#: What the hand of a job is kept under that is reckoned anew: no job's name has a space (our choice).
_ANEW = " anew"
#: The number of a hand that no entry of the job holds: those of a log begin at 1 (our choice).
_NO_ENTRY = 0
#: What has moved less than this share of its doubt, and is hardly better known, changes nothing (our choice).
_MOVED, _SURER = 0.25, 0.95


class Lesson(NamedTuple):
    """What one job says of one figure."""

    taught: Taught
    said: Known  # in the terms that jobs are drawn together in


class MadeWith(NamedTuple):
    """What the figures of a shop hang on."""

    fire: str  # as the smith calls it; empty where none is named
    hammer: str
    rates: Scale  # that a recipe says of the fire
    metals: frozenset[str] = frozenset()  # the grades of its pieces, by their names
    operations: frozenset[str] = frozenset()  # of its steps
    recipe: str = ""  # what it is called
    planned: tuple[tuple[str, int], ...] = ()  # the heats that its steps say, by their titles


class ShopsOwn(NamedTuple):
    """One figure of a shop, and what it rests on."""

    figure: ShopFigure
    of: MadeWith  # what of these it hangs on, the others empty
    published: Known
    lessons: tuple[Lesson, ...]  # that count
    left_out: tuple[Lesson, ...]  # that a smith has left out
    found: OverJobs

    @property
    def is_worth_beginning_with(self) -> bool:
        """Whether a new job is otherwise by it: another figure, or one that is better known."""
        begun, published = self.found.next_job, self.published
        moved = abs(begun.value - published.value) >= _MOVED * published.doubt
        return bool(self.lessons) and (moved or begun.doubt <= _SURER * published.doubt)

    @property
    def next_job(self) -> Known:
        """What a new job begins with, as it is told."""
        return as_known(self.figure, self.found.next_job)


class JobsBefore:
    """What each job of a log has taught; a job is replayed once for as long as nothing is added to it."""

    def __init__(self, log: Log, plans: Plans, memory: Memory | None = None) -> None:
        """Of that log; with a memory, what is known of its jobs is kept in it for the next time."""
        self._log, self._plans = log, plans
        self._kept = LessonsKept(memory, log.path)
        self._failed: set[Newest] = set()

    def taught(self, but: str = "") -> Iterator[Taught]:
        """What the jobs last worked have taught, that first which was worked last."""
        found = (self._of(one).figures for one in self._latest(but))
        told = (one for one in islice(found, _MOST_LOOKED_AT) if one is not None)
        yield from islice(told, MOST_JOBS)

    def all_taught(self, but: str = "") -> tuple[Taught, ...]:
        """The same at once; the grades are as they were before."""
        try:
            return tuple(self.taught(but))
        finally:
            self._keep()

    def hand(self, but: str = "") -> HandKnown | None:
        """The hand as that job leaves it which was worked last of those that teach one; None where none does.

        What a smith leaves out does not count, nor in the hands of those after it. Jobs that teach nothing
        of the hand come between nowhere.
        """
        return next((one.known for one in self._hands(but) if not one.left_out), None)

    def hands(self) -> tuple[HandTaught, ...]:
        """The hand as each job that teaches one leaves it, that first which was worked last."""
        return tuple(self._hands(""))

    def hand_came_through(self) -> tuple[str, ...]:
        """The jobs that the hand of a new one came through, the last first, as far as they are looked at."""
        by_name = {one.known.job: one for one in self.hands()}
        hand, through = self.hand(), list[str]()
        while hand is not None and hand.job in by_name and hand.job not in through:
            through.append(hand.job)
            hand = by_name[hand.job].begun
        return tuple(through)

    def _hands(self, but: str) -> Iterator[HandTaught]:
        """The same without one job, each begun with the one that was worked before it.

        A job that was begun with another one's is reckoned anew: the work of two went side by side, a day on
        paper was entered later, or one between is left out. What came from a job that is not looked at stays.
        """
        latest = self._latest_by_name(but)
        found = list[HandTaught]()
        before: HandTaught | None = None
        is_anew = False
        try:
            for newest in reversed(latest.values()):
                hand = self._of(newest).hand
                if hand is None:
                    continue
                came_from = hand.begun.job if hand.begun is not None else ""
                as_it_began = not is_anew and came_from == (before.known.job if before is not None else "")
                if not hand.left_out:
                    if is_anew := not (as_it_began or (came_from and came_from not in latest)):
                        hand = self._begun_anew(newest, before.known if before is not None else None) or hand
                    before = hand
                found.append(hand)
        finally:
            self._keep()
        yield from reversed(found)

    def _begun_anew(self, newest: Newest, hand: HandKnown | None) -> HandTaught | None:
        """The hand as a job leaves it that had begun with another one, or with the usual for None."""
        name, digest = f"{newest.job}{_ANEW}", f"{newest.digest} {hand.to_json() if hand else ''}"
        found = self._kept.of(name, digest)
        if found is None:
            entries = self._log.entries(newest.job)
            state = replay(self._plans.of(newest.job, beginning_of(entries)), list(_with(entries, hand)))
            found = OfJob(None, hand_taught_by(newest.job, state))
            self._kept.take(name, digest, found)
        return found.hand

    def _latest_by_name(self, but: str) -> dict[str, Newest]:
        return {one.job: one for one in islice(self._latest(but), _MOST_LOOKED_AT)}

    def _latest(self, but: str) -> Iterator[Newest]:
        return (one for one in self._log.last_worked_first() if one.job != but)

    def _keep(self) -> None:
        keep_to({})  # the other jobs have their own
        jobs = [one.job for one in islice(self._latest(""), _MOST_LOOKED_AT + 1)]
        self._kept.keep([*jobs, *(f"{job}{_ANEW}" for job in jobs)])

    def _of(self, newest: Newest) -> OfJob:
        found = self._kept.of(newest.job, newest.digest)
        if found is None and newest not in self._failed:
            try:
                found = self._replayed(newest.job)
                self._kept.take(newest.job, newest.digest, found)
            except Exception:  # whatever another job may be, this one begins
                self._failed.add(newest)
        return found or OfJob(None, None)

    def _replayed(self, job: str) -> OfJob:
        entries = self._log.entries(job)
        if readings_in(entries) < LEAST_SIZES:
            return OfJob(None, None)  # and nothing of it need be reckoned
        state = replay(self._plans.of(job, beginning_of(entries)), entries)
        return OfJob(taught_by(job, state), hand_taught_by(job, state))


def _with(entries: Sequence[Entry], hand: HandKnown | None) -> Iterator[Entry]:
    """The entries of a job as if it had begun with that hand; one that was struck out stays so."""
    had = any(isinstance(one.body, HandKnown) for one in entries)
    for one in entries:
        if not isinstance(one.body, HandKnown):
            yield one
        elif hand is not None:
            yield one._replace(body=hand)
        if one.number == 1 and hand is not None and not had:
            yield one._replace(number=_NO_ENTRY, body=hand)


def shops_own(before: JobsBefore, made: MadeWith, but: str = "") -> list[ShopsOwn]:
    """Every figure, with what the jobs of this fire, this hammer and these rates say of it."""
    taught = before.all_taught(but)
    return [_own(figure, taught, made) for figure in figures_taught(taught)]


def every_own(before: JobsBefore) -> list[ShopsOwn]:
    """Every figure that a job has taught, once for each fire or hammer and each rates that jobs had."""
    taught, found = before.all_taught(), []
    for figure in figures_taught(taught):
        of = dict.fromkeys(_of(figure, MadeWith(one.fire, one.hammer, one.rates)) for one in taught)
        told = (_own(figure, taught, made) for made in of)
        found += [one for one in told if one.lessons or one.left_out]
    return found


def _of(figure: ShopFigure, made: MadeWith) -> MadeWith:
    """What a figure hangs on alone."""
    rates = made.rates if figure.what == SCALE_OF_SHOP else Scale()
    rates = rates if rates[:3] != (None, None, None) else Scale()  # the law is one, whatever its share
    return MadeWith(
        made.fire if figure.by == "fire" else "", made.hammer if figure.by == "hammer" else "", rates
    )


def _own(figure: ShopFigure, taught: Sequence[Taught], made: MadeWith) -> ShopsOwn:
    of_its_own = {"fire": made.fire, "hammer": made.hammer}.get(figure.by)
    said = [
        Lesson(one, known)
        for one in taught
        if of_its_own is None or getattr(one, figure.by) == of_its_own
        if (known := _said_by(figure, one, made)) is not None
    ]
    counts = [one for one in said if figure.what not in one.taught.left_out]
    out = [one for one in said if figure.what in one.taught.left_out]
    published = figure.published(made.rates)
    found = over_jobs(published, [one.said for one in counts])
    return ShopsOwn(figure, _of(figure, made), published, tuple(counts), tuple(out), found)


def _said_by(figure: ShopFigure, taught: Taught, made: MadeWith) -> Known | None:
    if figure.what == HEATS and made.recipe:
        return of_plan(taught, made.recipe, dict(made.planned))
    return of_rates(figure, taught, made.rates)


def made_with(made: ForgedWith, recipe: Recipe) -> MadeWith:
    """What the figures hang on, of a job of that recipe in that fire and with that hammer."""
    metals = frozenset(grade(one.metal).name for one in recipe.pieces.values())
    done = frozenset(step.operation for step in recipe.steps)
    planned = tuple((step.title, step.heats) for step in recipe.steps if step.heats_said)
    return MadeWith(made.fire, made.hammer, recipe.scale, metals, done, recipe.name, planned)


def begins_with(before: JobsBefore, made: MadeWith, but: str = "") -> tuple[HandKnown | ShopKnown, ...]:
    """What a new job begins with: the hand, and each figure of which jobs have taught enough to tell."""
    hand = before.hand(but)
    return (*([hand] if hand is not None else []), *_known_of_shop(before, made, but))


def _known_of_shop(before: JobsBefore, made: MadeWith, but: str) -> Iterator[ShopKnown]:
    for own in shops_own(before, made, but):
        if not own.is_worth_beginning_with:
            continue
        if own.figure.metal in ("", *made.metals) and own.figure.operation in ("", *made.operations):
            yield ShopKnown(
                what=own.figure.what,
                unit=own.figure.kind.unit,
                value=own.next_job.value,
                doubt=own.next_job.doubt,
                jobs=len(own.lessons),
                names=", ".join(one.taught.job for one in own.lessons),
            )
