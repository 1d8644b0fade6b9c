"""What a job's readings have taught: scale, spread and tempering curves, each with the reading that did."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum
from math import hypot, sqrt
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.own_tempers import name_of, own_steels_of
from coach.fire.spreading import spread_coefficient
from coach.ledger.course import Outcome
from coach.ledger.own_curves import OwnSteel
from coach.ledger.running import coefficient
from coach.ledger.spreading import UNTAUGHT, MeasuredHeat, Taught
from coach.ledger.weighing import kind_of
from coach.ledger.workpiece import FULLNESS, SCALE, SPREAD, Workpiece
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities.figure import Figure, Kind
from coach.quantities.words import NOTHING, Words, say
from coach.recipe.model import Step

#: A reading that moved the factor, or the coefficient, by less than this has taught nothing worth naming (our
#: choice).
_WORTH_NAMING = 0.02
#: However often a piece is weighed, what a fire takes of it is known no better than to this share: no two
#: heats are alike, and no face is as smooth as it is reckoned (judgement).
_NO_TRUER_SHARE = 0.05
#: The bite, as a share of the width, that the spread coefficient is told for (our choice).
_TOLD_AT_BITE = 0.5


class OfShop(StrEnum):
    """What is learned of a shop."""

    SCALE = "scale"  # the factor on what a heat is reckoned to take
    SPREAD = "spread"  # the coefficient, at a bite of half the width
    FULLNESS = "fullness"  # how many times what their sizes make hammered sections hold; of weighed pieces
    TEMPER = "temper"  # how much harder or softer than the published curve a steel comes out


class Teacher(NamedTuple):
    """The reading that taught most."""

    entry: int  # its entry's number; striking it out takes its lesson back
    step: int  # the step that it was taken in
    zone: str
    dimension: str
    size: Figure  # on cold metal
    up: bool  # whether it took the figure up
    heat: MeasuredHeat | None  # the heat that it measured, where it completed one


class LearnedOfShop(NamedTuple):
    """What the job's readings have taught of the shop itself."""

    what: OfShop
    now: Figure  # as believed now
    published: Figure  # what is reckoned with before any reading
    by: Teacher | None  # None where no reading has told anything else yet
    others: int  # how many more readings have told something
    steel: Words = NOTHING  # which, and what its published curve was measured on
    of_shop: int = 0  # so many jobs before have taught what this one began with; 0 where that is published


def learned_of_shop(state: JobState) -> tuple[LearnedOfShop, ...]:
    """The scale factor and the spread coefficient as believed now; empty when nothing is reckoned."""
    now = state.now
    if now is None:
        return ()
    bodies = (one.body for one in state.counted.values())
    of_shop = {one.what: one.jobs for one in bodies if isinstance(one, ShopKnown)}
    read = [(c.step, one) for c in state.courses() for one in c.outcomes if one.taught is not UNTAUGHT]
    reckoned, book = (Figure(one, Kind.FACTOR) for one in (1.0, spread_coefficient(_TOLD_AT_BITE, 1.0)))
    factor = now.scale_factor()
    first, doubt = state.first_plan.recipe.scale.doubt_share, now.belief.doubt(SCALE)
    known = max(0.0, 1.0 - (doubt / (factor * first)) ** 2) if first else 0.0
    scale = Figure(factor, Kind.FACTOR, hypot(doubt, _NO_TRUER_SHARE * factor * sqrt(known)))
    learned = coefficient(book.value, now.belief.mean(SPREAD))
    spread = Figure(learned, Kind.FACTOR, now.belief.doubt(SPREAD))
    return (
        LearnedOfShop(
            OfShop.SCALE,
            scale,
            reckoned,
            *_most(read, lambda taught: taught.scale),
            of_shop=of_shop.get(OfShop.SCALE, 0),
        ),
        LearnedOfShop(
            OfShop.SPREAD,
            spread,
            book,
            *_most(read, lambda taught: taught.spread),
            of_shop=of_shop.get(OfShop.SPREAD, 0),
        ),
        *_fullness(now, of_shop.get(OfShop.FULLNESS, 0)),
        *(_of_a_steel(one, of_shop.get(name_of(one.published), 0)) for one in own_steels_of(state)),
    )


def _fullness(now: Workpiece, of_shop: int) -> Iterator[LearnedOfShop]:
    """What weighings have told, for sizes alone cannot tell it from what the fire took."""
    if FULLNESS in now.belief:
        full = Figure(1.0 + now.belief.mean(FULLNESS), Kind.FACTOR, now.belief.doubt(FULLNESS))
        yield LearnedOfShop(OfShop.FULLNESS, full, Figure(1.0, Kind.FACTOR), None, 0, of_shop=of_shop)


def _of_a_steel(own: OwnSteel, of_shop: int) -> LearnedOfShop:
    row, curve = own.published, own.curve
    off, steel = (
        Figure(curve.offset_hrc, Kind.HARDNESS, curve.doubt_hrc),
        say("{}, {}", row.name, row.column.specimen),
    )
    most = max(own.lessons, key=lambda one: abs(one.moved_hrc))
    reading, step = most.outcome.mark.reading, most.step
    size = Figure(reading.size_mm, kind_of(step, reading.dimension))
    up = most.moved_hrc > 0.0
    by = Teacher(most.outcome.mark.entry, step.number, reading.zone, reading.dimension, size, up, None)
    if abs(most.moved_hrc) < _WORTH_NAMING:
        return LearnedOfShop(OfShop.TEMPER, off, Figure(0.0, Kind.HARDNESS), None, 0, steel, of_shop)
    return LearnedOfShop(
        OfShop.TEMPER,
        off,
        Figure(0.0, Kind.HARDNESS),
        by,
        len(own.lessons) - 1,
        steel,
        of_shop,
    )


def _most(
    read: Sequence[tuple[Step, Outcome]], moved: Callable[[Taught], float]
) -> tuple[Teacher | None, int]:
    """The reading that moved a figure most, and how many others are worth naming."""
    told = [(step, one) for step, one in read if abs(moved(one.taught)) >= _WORTH_NAMING]
    if not told:
        return None, 0
    step, most = max(told, key=lambda pair: abs(moved(pair[1].taught)))
    reading = most.mark.reading
    cold = most.surprise.cold if most.surprise is not None else None
    size = Figure(cold.size_mm if cold is not None else reading.size_mm, kind_of(step, reading.dimension))
    up = moved(most.taught) > 0.0
    return (
        Teacher(most.mark.entry, step.number, reading.zone, reading.dimension, size, up, most.taught.heat),
        len(told) - 1,
    )
