"""A shop's own figures as they are looked at: each beside what is published, with the jobs it rests on."""

from __future__ import annotations

from collections.abc import Callable, Collection
from contextlib import suppress
from typing import NamedTuple

from coach.bench.entering import EntryFault
from coach.bench.known_hand import HandTaught
from coach.bench.known_shop import MOST_JOBS, Lesson, ShopsOwn, every_own
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.shop_figures import ShopFigure, as_known, every_shop_figure
from coach.bench.told_and_came import ToldAndCame, ToldOfJob, told_and_came
from coach.ledger.hand import SCATTER_DOUBT
from coach.ledger.over_jobs import Known
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.hand_known import HAND_OF_SMITH
from coach.log.kinds.shop_known import blows_name, struck_in
from coach.metals.grade import keep_to
from coach.quantities.errors import did_you_mean
from coach.quantities.figure import Figure, Kind, mm
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words, run_on, say

#: One of those that are of an operation each.
_SUCH_AS = blows_name("draw")
#: What is said of a lesson that is not to be left out, or is.
_ALREADY = ("counts", "is left out")


class OfOneJob(NamedTuple):
    """What one job says of a figure."""

    job: str
    said: Figure  # by its own readings alone
    left_out: int  # the number of the entry that leaves it out; 0 where it counts


class OwnFigure(NamedTuple):
    """One figure of the shop."""

    #: `scale`, `spread`, `pace`, `heats`, `hand`, `blows-OPERATION`, or a gauge for what it reads too much
    what: str
    fire: str  # for jobs in this fire; empty where none is named, or where the fire is no matter
    hammer: str  # the same of the hammer
    forging_mm: Figure | None  # of a scale: for recipes that say so much a heat; `null` for the law's
    published: Figure  # what is reckoned with before any job
    shop: Figure  # the shop's own
    next_job: Figure  # what a new job begins with: one job differs from another
    own_share: float  # how far that has gone from what is published to what the jobs say alone, 0 to 1
    jobs: tuple[OfOneJob, ...]  # that it rests on, that first which was worked last
    sizes: int = 0  # of a hand: so many sizes in all that it worked, in that job and those before it
    unnamed: str = ""  # `fire` or `hammer` where it is of jobs that name none, and others of it name one
    begins: bool = True  # whether a new job begins with it, in the fire and with the hammer that are set


class OwnFigures(NamedTuple):
    """All of them, and what was told of finished jobs beside what came."""

    figures: tuple[OwnFigure, ...]
    told: tuple[ToldAndCame, ...]
    most_jobs: int  # so many jobs teach at most, those that were last worked
    not_sure: int = 0  # so many finished ones among them of which it is not sure what came


def own_figures(shop: Shop) -> OwnFigures:
    """Every figure that a job of the shop has taught."""
    every = every_own(shop.jobs_before)
    named = {one.figure.what for one in every if one.of.fire or one.of.hammer}
    found = [_own(one, shop.forged_with, named) for one in every]
    hands = shop.jobs_before.hands()
    if hands:
        found.insert(0, _hand(hands))
    told, not_sure = _told(shop)
    return OwnFigures(tuple(found), told_and_came(told), MOST_JOBS, not_sure)


def leave_out(shop: Shop, what: str, job: str) -> Words:
    """Leave what a job taught of a figure out, or what all of them did; raises EntryFault."""
    return _of_each(shop, what, job, _leave_out, "left out of what new jobs begin with")


def bring_back(shop: Shop, what: str, job: str) -> Words:
    """Let what was left out count again; raises EntryFault."""
    return _of_each(shop, what, job, _bring_back, "counted again")


def _of_each(shop: Shop, what: str, job: str, deed: Callable[[Session, str, int], bool], done: str) -> Words:
    names = [HAND_OF_SMITH, *(one.what for one in every_shop_figure())]
    if what not in names:
        of_any = [one for one in names if not struck_in(one)]
        told = f"they are {', '.join(of_any)}, and {_SUCH_AS} for the blows of an operation."
        raise EntryFault(f"No figure of a shop is called {what[:40]!r}: {did_you_mean(what, names, told)}")
    wanted = shop.named(job) if job else ""
    found = own_figures(shop).figures
    rests_on = [lesson for own in found if own.what == what for lesson in own.jobs]
    through, again = tuple[str, ...](), False
    if what == HAND_OF_SMITH:  # a job speaks for those before it too: of one alone, or of each that taught it
        hands = shop.jobs_before.hands()
        rests_on = [_of_one_hand(one) for one in hands if wanted in ("", one.known.job)]
        if wanted and not rests_on:
            left_out = shop.open(wanted).left_out_of_shop().get(what, 0)
            rests_on = [OfOneJob(wanted, mm(0.0), left_out)]
        if wanted and deed is _leave_out:
            through, again = _handed_on_by(shop, wanted)
    changed = []
    for lesson in rests_on:
        if wanted in ("", lesson.job) and deed(shop.open(lesson.job), what, lesson.left_out):
            changed.append(lesson.job)
    if not changed:
        if any(wanted in ("", lesson.job) for lesson in rests_on):
            of = f"what {wanted or 'they all'} told of the {what} {_ALREADY[deed is _leave_out]} already"
        else:
            of = (
                f"{wanted} has taught nothing of the {what}"
                if wanted
                else f"no job has taught anything of the {what}"
            )
        raise EntryFault(f"Nothing is to be changed: {of}.")
    if through and again:
        clause = "What {} told of the hand is left out of what new jobs begin with"
        return say(clause + "; what {} told after it is reckoned anew", wanted, run_on(through, ", "))
    if through:
        clause = "What {} told of the hand is left out, but stays in what new jobs begin with through {}"
        more = ", begun with it: to be without it, leave out the hand of each of these too"
        return say(clause + more, wanted, run_on(through, ", "))
    return say("What {} told of the {} is {}", run_on(changed, ", "), what, done)


def _handed_on_by(shop: Shop, job: str) -> tuple[tuple[str, ...], bool]:
    """The jobs through which a job's hand is in what a new one begins with; none where it is not.

    And whether these can be reckoned anew without it: a job that is no longer looked at stays in them.
    """
    came = shop.jobs_before.hand_came_through()
    if job in came:
        return came[: came.index(job)], True
    hand, through = shop.jobs_before.hand(), list[str]()
    now = (
        hand.job
        if hand is not None and job not in {one.known.job for one in shop.jobs_before.hands()}
        else ""
    )
    while now and now not in through:
        if now == job:
            return tuple(through), False
        through.append(now)
        try:
            now = shop.open(now).hand_of()
        except Refusal:  # a job that is no longer here, or cannot be opened, tells no more
            break
    return (), False


def _leave_out(session: Session, what: str, left_out: int) -> bool:
    if not left_out:
        session.leave_lesson_out(what)
    return not left_out


def _bring_back(session: Session, what: str, left_out: int) -> bool:
    if left_out:
        session.strike(left_out)
    return bool(left_out)


def _own(own: ShopsOwn, set_: ForgedWith, named: Collection[str]) -> OwnFigure:
    figure, rates = own.figure, own.of.rates
    is_set = getattr(set_, figure.by) if figure.by else ""
    is_of = getattr(own.of, figure.by) if figure.by else ""
    return OwnFigure(
        what=figure.what,
        fire=own.of.fire,
        hammer=own.of.hammer,
        forging_mm=None if rates.forging_mm is None else Figure(rates.forging_mm, Kind.FINE),
        published=_figure(figure, own.published),
        shop=_figure(figure, own.found.shop) if own.lessons else _figure(figure, own.published),
        next_job=_figure(figure, own.found.next_job),
        own_share=own.found.own_share,
        jobs=tuple(_lesson(figure, one) for one in (*own.lessons, *own.left_out)),
        unnamed=figure.by if not is_of and (is_set or figure.what in named) else "",
        begins=is_of == is_set,
    )


def _lesson(figure: ShopFigure, one: Lesson) -> OfOneJob:
    left_out = one.taught.left_out.get(figure.what, 0)
    return OfOneJob(one.taught.job, _figure(figure, one.said), left_out)


def _figure(figure: ShopFigure, pooled: Known) -> Figure:
    known = as_known(figure, pooled)
    return Figure(known.value, figure.kind, known.doubt)


def _hand(hands: tuple[HandTaught, ...]) -> OwnFigure:
    """The hand, which goes from job to job as a level that moves a little: the last job speaks for all."""
    counts = [one for one in hands if not one.left_out][:1]
    usual = Figure(1.0, Kind.FACTOR, SCATTER_DOUBT)
    now = counts[0].known.figure if counts else usual
    share, sizes = (1.0, counts[0].known.sizes) if counts else (0.0, 0)  # what it says is drawn in already
    jobs = tuple(map(_of_one_hand, (*counts, *(one for one in hands if one.left_out))))
    return OwnFigure(HAND_OF_SMITH, "", "", None, usual, now, now, share, jobs, sizes)


def _of_one_hand(one: HandTaught) -> OfOneJob:
    return OfOneJob(one.known.job, one.known.figure, one.left_out)


def _told(shop: Shop) -> tuple[list[ToldOfJob], int]:
    """What finished jobs were told, and of how many others it is not sure what came."""
    found: list[ToldOfJob] = []
    not_sure = 0
    for one in shop.log.last_worked_first()[:MOST_JOBS]:
        with suppress(Refusal):
            session = shop.open(one.job)
            told = session.told_and_came()
            found += [told] if told is not None else []
            not_sure += told is None and session.standing().step is None
    keep_to({})
    return found, not_sure
