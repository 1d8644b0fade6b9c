"""The figures of a shop that jobs can teach: as published, as a job began with them, as it says itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import exp, log, sqrt
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.bench.blows_a_heat import BLOWS_BOOK_SPREAD, BLOWS_HEAT_SPREAD, BOOK_BLOWS
from coach.bench.job_state import JobState
from coach.bench.own_blows import operations_struck, own_blows
from coach.bench.own_tempers import name_of, own_steels_of
from coach.bench.time_ahead import BOOK_S, BOOK_SPREAD, HEAT_SPREAD, times_of_heats, treated_in
from coach.fire.spreading import COEFFICIENT_DOUBT
from coach.ledger.over_jobs import Known, lesson
from coach.ledger.workpiece import FULLNESS, FULLNESS_DOUBT_SHARE, LEAST_SCALE, SCALE, SPREAD
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.lesson_left_out import LessonLeftOut
from coach.log.kinds.reading import Reading
from coach.log.kinds.shop_known import ShopKnown, blows_name, struck_in
from coach.metals.grade import grade
from coach.metals.own_curve import untaught
from coach.metals.tempering_table import TemperingRow, published_rows
from coach.operations import operation, operations
from coach.operations.does import AT_THE_HAMMER, HeatKind
from coach.operations.gauges import GAUGES, SCALES, bias_name, gauge_then
from coach.quantities.figure import Kind
from coach.recipe.model import Scale

PACE, HEATS, SCALE_OF_SHOP, SPREAD_OF_SHOP = "pace", "heats", "scale", "spread"
FULLNESS_OF_SHOP = "fullness"
#: A job says as little of its smith's heats as one in which one heat more or fewer is by chance (judgement).
_HEATS_SPREAD: Final = 0.25
#: Heats a step, beside those planned, differ from smith to smith by about this, as a logarithm (judgement).
_HEATS_BOOK: Final = 0.25
#: Fewer heats say nothing of a pace, or of a plan (our choice).
_LEAST_HEATS: Final = 3
#: No scale factor of a shop is told above this, whatever its jobs say (judgement).
_MOST_SCALE: Final = 6.0
#: No hammered section is told fuller or hollower than its sizes make it by more than this share (judgement).
_MOST_FULLER_SHARE: Final = 0.2
#: No steel's own curve is told further off than this from the published one (judgement).
_MOST_OFF_HRC: Final = 15.0


class ShopFigure(NamedTuple):
    """One figure of a shop."""

    what: str  # by which it is named
    kind: Kind
    by: str  # what it hangs on, of what a smith names: `fire`, `hammer`, or nothing
    published: Callable[[Scale], Known]  # before any job, in the terms that jobs are drawn together in
    said: Callable[[JobState, Known], Known | None]  # by a job that began with that
    is_log: bool = False  # whether those terms are its natural logarithm
    metal: str = ""  # the only grade that it is of; empty where it is of any
    operation: str = ""  # the only one that it is of; empty where it is of any


class Taught(NamedTuple):
    """What one job has taught."""

    job: str
    fire: str  # as the smith called it; empty where he named none
    hammer: str
    rates: Scale  # that its recipe says of the fire
    says: dict[str, Known]  # by the figure's name
    left_out: dict[str, int]  # by the figure's name: the number of the entry that leaves it out
    recipe: str = ""  # what its recipe is called
    #: Of each step at the hammer that is done, by its title: the heats that it took, and those planned.
    heats: Mapping[str, tuple[int, int]] = MappingProxyType({})


def every_shop_figure() -> tuple[ShopFigure, ...]:
    """All of them, the gauges as they are set now."""
    hammered = (name for name, one in operations().items() if one.HEAT_KIND is not HeatKind.COLD)
    return (*shop_figures(), *(_of_blows(name) for name in hammered))


def figures_taught(taught: Iterable[Taught]) -> tuple[ShopFigure, ...]:
    """Those that any job teaches, and of each operation those that jobs have taught."""
    named = dict.fromkeys(what for one in taught for what in one.says)
    return (*shop_figures(), *(_of_blows(struck) for what in sorted(named) if (struck := struck_in(what))))


def shop_figures() -> tuple[ShopFigure, ...]:
    """All of them but the blows of each operation, the gauges as they are set now."""
    return (
        ShopFigure(SCALE_OF_SHOP, Kind.FACTOR, "fire", _scale_published, _scale_said),
        ShopFigure(SPREAD_OF_SHOP, Kind.FACTOR, "hammer", _spread_published, _believed(SPREAD)),
        ShopFigure(FULLNESS_OF_SHOP, Kind.FACTOR, "", _fullness_published, _fullness_said),
        *(
            ShopFigure(name, Kind.FINE, "", _bias_published(gauge.bias_mm), _believed(bias_name(name)))
            for name, gauge in GAUGES.items()
        ),
        *(_of_temper(row) for row in published_rows()),
        ShopFigure(PACE, Kind.TIME, "fire", _pace_published, _pace_said, is_log=True),
        ShopFigure(HEATS, Kind.FACTOR, "hammer", _heats_published, _heats_said, is_log=True),
    )


def shop_figure(what: str) -> ShopFigure | None:
    """One of them by its name."""
    if struck := struck_in(what):
        try:
            operation(struck)
        except KeyError:
            return None
        return _of_blows(struck)
    return next((one for one in shop_figures() if one.what == what), None)


def taught_by(job: str, state: JobState) -> Taught:
    """What a job has taught so far of each figure, apart from what it began with."""
    bodies = [one.body for one in state.counted.values()]
    known = {body.what: body for body in bodies if isinstance(body, ShopKnown)}
    made = next((body for body in bodies if isinstance(body, ForgedWith)), None)
    recipe = state.first_plan.recipe
    says: dict[str, Known] = {}
    for figure in (*shop_figures(), *map(_of_blows, operations_struck(state))):
        if figure.what in known:
            began = as_pooled(figure, known[figure.what])
        else:
            began = _bias_then(bodies, figure.what) or figure.published(recipe.scale)
        said = figure.said(state, began)
        if said is not None:
            says[figure.what] = said
    left_out = {
        one.body.what: number for number, one in state.counted.items() if isinstance(one.body, LessonLeftOut)
    }
    fire, hammer = (made.fire, made.hammer) if made is not None else ("", "")
    return Taught(job, fire, hammer, recipe.scale, says, left_out, recipe.name, _heats_taken(state))


def as_pooled(figure: ShopFigure, known: ShopKnown) -> Known:
    """A figure that a job began with, in the terms that jobs are drawn together in."""
    if not figure.is_log:
        return Known(known.value, known.doubt)
    return Known(log(known.value), known.doubt / known.value)


def as_known(figure: ShopFigure, pooled: Known) -> Known:
    """The other way round: as it is told and entered."""
    if not figure.is_log:
        return pooled
    return Known(exp(pooled.value), exp(pooled.value) * pooled.doubt)


def can_be_known(known: ShopKnown) -> bool:
    """Whether it is a figure that there is, and one that jobs can come to."""
    figure = shop_figure(known.what)
    if figure is None or figure.kind.unit != known.unit:
        return False
    if known.what == FULLNESS_OF_SHOP:
        return abs(known.value - 1.0) <= _MOST_FULLER_SHARE
    if known.what == SCALE_OF_SHOP:
        return LEAST_SCALE <= known.value <= _MOST_SCALE
    if figure.is_log:
        return known.value > 0.0 and known.doubt <= known.value
    if figure.metal:
        return abs(known.value) <= _MOST_OFF_HRC
    return True


def of_rates(figure: ShopFigure, taught: Taught, here: Scale) -> Known | None:
    """What a job says of a figure for a recipe of other rates; None where nothing that can be carried over.

    No further off than a figure can be: the readings of one job may say that the fire gives metal back, which
    no fire does. It is told and drawn together as the same.

    The scale factor is one on what a recipe says of the fire: where both leave that to the published law it
    goes by their shares of it, and where one says its own rates only a recipe of the same rates is told.
    """
    said = taught.says.get(figure.what)
    if said is None:
        return None
    if figure.what == SCALE_OF_SHOP:
        there = taught.rates
        if there[:3] != here[:3]:
            return None
        times = there.fire_share / here.fire_share if here[:3] == (None, None, None) else 1.0
        said = Known(times * said.value, times * said.doubt)
    return in_bounds(figure, said)


def in_bounds(figure: ShopFigure, known: Known) -> Known:
    """A figure kept where a job can begin with it, in the terms that jobs are drawn together in."""
    if figure.what == FULLNESS_OF_SHOP:
        off = min(max(known.value - 1.0, -_MOST_FULLER_SHARE), _MOST_FULLER_SHARE)
        return known._replace(value=1.0 + off)
    if figure.what != SCALE_OF_SHOP:
        return known
    return known._replace(value=min(max(known.value, LEAST_SCALE), _MOST_SCALE))


# ── each figure ─────────────────────────────────────────────────────────────────────────────────────


def _believed(name: str) -> Callable[[JobState, Known], Known | None]:
    """A quantity of the belief, as a job has come to know it."""

    def said(state: JobState, began: Known) -> Known | None:
        now = state.now
        if now is None or name not in now.belief:
            return None
        return lesson(began, Known(now.belief.mean(name), now.belief.doubt(name)))

    return said


def _scale_published(rates: Scale) -> Known:
    return Known(1.0, rates.doubt_share)


def _scale_said(state: JobState, began: Known) -> Known | None:
    if state.now is None:
        return None
    ended = Known(state.now.scale_factor(), state.now.belief.doubt(SCALE))
    if bias_name(SCALES) not in state.now.belief:
        return lesson(began, ended)
    # A weighing has moved the logarithm of the factor: what the job itself says is said of that.
    said = lesson(_logarithm(began), _logarithm(ended))
    return None if said is None else Known(exp(said.value), exp(said.value) * said.doubt)


def _logarithm(of: Known) -> Known:
    return Known(log(of.value), of.doubt / of.value)


def _fullness_published(_: Scale) -> Known:
    return Known(1.0, FULLNESS_DOUBT_SHARE)


def _fullness_said(state: JobState, began: Known) -> Known | None:
    now = state.now
    if now is None or FULLNESS not in now.belief:
        return None
    return lesson(began, Known(1.0 + now.belief.mean(FULLNESS), now.belief.doubt(FULLNESS)))


def _spread_published(_: Scale) -> Known:
    return Known(0.0, COEFFICIENT_DOUBT)


def _bias_published(bias_mm: float) -> Callable[[Scale], Known]:
    return lambda _: Known(0.0, bias_mm)


def _bias_then(bodies: Iterable[Body], gauge: str) -> Known | None:
    """What a job that knew nothing of a gauge began to read with it by; None where it read nothing so."""
    first = next((body for body in bodies if isinstance(body, Reading) and body.gauge == gauge), None)
    then = gauge_then(gauge, first.doubts) if first is not None else None
    return None if then is None else Known(0.0, then.bias_mm)


def _of_temper(row: TemperingRow) -> ShopFigure:
    """How far a smith's own curve of one steel lies above the published one, for one column of it."""

    def said(state: JobState, began: Known) -> Known | None:
        if all(grade(piece.metal).name != row.name for piece in state.plan.recipe.pieces.values()):
            return None
        read = (one for one in own_steels_of(state) if name_of(one.published) == name_of(row))
        taught = next(read, None)
        if taught is None:
            return None
        first = untaught(taught.published).doubt_hrc
        # A file that skates tells nothing of how much harder it may be: no other job can go by that.
        doubt = taught.curve.harder_doubt_hrc or taught.curve.doubt_hrc
        return lesson(Known(began.value, min(began.doubt, first)), Known(taught.curve.offset_hrc, doubt))

    published = Known(0.0, untaught(row).doubt_hrc)
    return ShopFigure(name_of(row), Kind.HARDNESS, "", lambda _: published, said, metal=row.name)


def _pace_published(_: Scale) -> Known:
    return Known(log(BOOK_S), BOOK_SPREAD)


def _pace_said(state: JobState, _: Known) -> Known | None:
    own = times_of_heats(state.counted.values(), treated_in(state))
    if len(own) < _LEAST_HEATS:
        return None
    return Known(sum(own) / len(own), HEAT_SPREAD / sqrt(len(own)))


def _of_blows(struck: str) -> ShopFigure:
    """The blows that a heat takes in one operation, with one hammer."""

    def said(state: JobState, _: Known) -> Known | None:
        own = own_blows(state, struck)
        if not own:  # few heats say it in more doubt, and jobs of few heats say it together
            return None
        return Known(sum(own) / len(own), BLOWS_HEAT_SPREAD / sqrt(len(own)))

    published = Known(log(BOOK_BLOWS), BLOWS_BOOK_SPREAD)
    return ShopFigure(
        blows_name(struck),
        Kind.FACTOR,
        "hammer",
        lambda _: published,
        said,
        is_log=True,
        operation=struck,
    )


def _heats_published(_: Scale) -> Known:
    return Known(0.0, _HEATS_BOOK)


def _heats_said(state: JobState, _: Known) -> Known | None:
    """How many heats the steps at the hammer took that are done, beside those planned as they were begun."""
    return _heats_beside(_heats_taken(state).values())


def of_plan(taught: Taught, recipe: str, planned: Mapping[str, int]) -> Known | None:
    """What a job says of the heats for a plan: one of the same recipe, by the heats that it says now.

    A recipe that was given the heats that its job took is planned as this shop works, and takes no more.
    """
    if taught.recipe != recipe:
        return taught.says.get(HEATS)
    return _heats_beside((taken, planned.get(title, was)) for title, (taken, was) in taught.heats.items())


def _heats_taken(state: JobState) -> dict[str, tuple[int, int]]:
    """The heats that each done step at the hammer took, and those planned, by its title."""
    return {
        one.step.title: (one.heats, planned)
        for one in state.records
        if one.done_entry and not one.step.again and one.step.heat_kind in AT_THE_HAMMER
        if (planned := _planned(state, one.step.title))
    }


def _heats_beside(done: Iterable[tuple[int, int]]) -> Known | None:
    rows = list(done)
    taken, planned = (sum(column) for column in zip(*rows, strict=True)) if rows else (0, 0)
    if planned < _LEAST_HEATS or not taken:
        return None
    return Known(log(taken / planned), _HEATS_SPREAD / sqrt(planned / _LEAST_HEATS))


def _planned(state: JobState, title: str) -> int:
    found = [one.heats for one in state.first_plan.recipe.steps if one.title == title]
    return found[0] if len(found) == 1 else 0


def readings_in(entries: Iterable[Entry]) -> int:
    """How many sizes were read in a job."""
    return sum(isinstance(one.body, Reading) for one in entries)
