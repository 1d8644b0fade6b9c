"""A recipe's plan before the first heat: stock, marks, lengths to cut, steps and forecast."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil, floor
from typing import NamedTuple

from coach.bench.skin import SteelSkin, planned_skins, short_skin
from coach.bench.step import StepToDo, step_to_do
from coach.bench.verdicts import Why, how_it_stands
from coach.forms import label
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.head import Head, finished_mass, head
from coach.ledger.laid_steel import LaidSteel, laid_steels
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState
from coach.ledger.weigh import Finding, weigh
from coach.ledger.workpiece import at_stock
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.operations import Does
from coach.operations.does import Cause
from coach.quantities.figure import Figure, Kind, Span, grams, mm
from coach.quantities.words import NOTHING
from coach.recipe.model import Recipe, Step

#: One smith alone at a bar of some 25 mm takes so many heats an hour (common practice, no source).
_LEAST_HEATS_AN_HOUR, _MOST_HEATS_AN_HOUR = 6, 12
#: A mark cannot be set finer than this: less extra bar is not worth telling.
_WORTH_MARKING_MM = 0.25
_LEAST_EXTRA_MM = 0.5
_HOUR_S = 3600.0


class MarkOnBar(NamedTuple):
    """One mark, from the start of the bar."""

    at: Figure
    ends: str  # the zone that ends here
    begins: str | None  # the zone that begins here; None at the end of the piece
    cut_in: int | None  # the step that cuts the piece from its bar here; None where it is cut at once


class HoleCentre(NamedTuple):
    """Where a hole is punched, from the start of the bar."""

    zone: str
    at: Figure


class BarOfZone(NamedTuple):
    """The length of bar that a zone starts from."""

    zone: str
    length: Figure  # of bar
    volume: Figure
    extra: Figure | None  # of bar to mark out beyond this for a 95 % chance; None when it is enough


class Stock(NamedTuple):
    """The bar that a piece is taken from."""

    form: str  # flat, square, round…
    sizes: tuple[Figure, ...]  # of its section


class PlannedPiece(NamedTuple):
    """One piece and what it needs of its bar."""

    piece: str
    metal: str
    stock: Stock
    length: Figure  # of bar
    mass: Figure
    zones: tuple[BarOfZone, ...]
    marks: tuple[MarkOnBar, ...]
    centres: tuple[HoleCentre, ...]
    bar: Figure | None  # the bar in hand when its length is given
    left_over: Figure | None  # of the bar in hand; negative when bar is missing


class PlannedCut(NamedTuple):
    """A length to cut at, and how much of it is still to be drawn."""

    step: int
    zone: str
    length: Figure
    finished: Figure  # the length that the zone will have
    short_by: Figure  # how much shorter than that it is cut


class SizeLeft(NamedTuple):
    """One size a step is expected to leave."""

    name: str  # `blade.thickness`, as commands take it
    zone: str
    dimension: str
    size: Figure

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


class Loss(NamedTuple):
    """Metal a step takes from a zone, by cause."""

    zone: str
    cause: Cause
    volume: Figure


class PlannedStep(NamedTuple):
    """One step of the plan."""

    step: StepToDo
    after: tuple[SizeLeft, ...]  # the sizes it leaves
    taken: tuple[Loss, ...]


class PartOfLaid(NamedTuple):
    """One thing that a steel is laid on bigger for."""

    what: str
    size: Figure


class SteelToLay(NamedTuple):
    """How big a steel must be when it is laid on, by what is to remain of it."""

    steel: str
    zone: str
    dimension: str  # thickness on a face, length in a cleft
    remains: Figure  # to be left
    needed: Figure  # it must be that big
    drawn: Figure
    left: Figure  # what will be left of what is drawn
    enough: bool
    parts: tuple[PartOfLaid, ...]  # what takes of it


class Planned(NamedTuple):
    """Everything about a recipe before the first heat."""

    recipe: str
    title: str
    summary: str
    duration: str  # as the recipe says it
    tools: tuple[str, ...]
    pieces: tuple[PlannedPiece, ...]
    cuts: tuple[PlannedCut, ...]
    steps: tuple[PlannedStep, ...]
    sizes: tuple[FinishedSize, ...]  # of the drawing, as they can be expected
    spares: tuple[Spare, ...]
    finished_mass: Figure
    heats: int
    at_the_fire: Span  # how long so many heats keep a smith there
    skins: tuple[SteelSkin, ...]
    laid: tuple[SteelToLay, ...]
    head: Head | None  # None where several pieces are left
    chance: float  # that the whole drawing comes out
    verdict: PlanState
    reason: Why  # why it stands so: the size that decides, or words
    findings: tuple[Finding, ...]  # what the metal cannot do


def planned_tool(plan: Plan) -> Planned:
    """A plan with the way forward to the tool."""
    recipe = plan.recipe
    found = forecast(plan, None, at_stock(plan), 1)
    extra = {zone: one.extra_mm3 for zone, one in found.zones.items()}
    heats = sum(step.heats for step in recipe.steps)
    findings, skins = weigh(plan), planned_skins(plan)
    chance, verdict, reason = _stands(found, findings, skins)
    return Planned(
        recipe=recipe.name,
        title=recipe.title,
        summary=recipe.summary,
        duration=recipe.duration,
        tools=recipe.tools,
        pieces=tuple(_piece(plan, name, extra) for name in recipe.pieces),
        cuts=tuple(
            PlannedCut(cut.step, cut.zone, mm(cut.length_mm), mm(cut.finished_mm), mm(cut.short_by_mm))
            for cut in plan.cuts
        ),
        steps=tuple(_step(plan, step) for step in recipe.steps),
        sizes=found.sizes(recipe),
        spares=found.spares(recipe),
        finished_mass=finished_mass(plan),
        heats=heats,
        at_the_fire=at_the_fire(heats),
        skins=skins,
        laid=tuple(_laid(one) for one in laid_steels(plan)),
        head=head(plan),
        chance=chance,
        verdict=verdict,
        reason=reason,
        findings=findings,
    )


def how_planned(plan: Plan) -> tuple[float, PlanState, Why]:
    """The chance of a plan, its verdict and the reason, before the first heat."""
    return _stands(forecast(plan, None, at_stock(plan), 1), weigh(plan), planned_skins(plan))


def _stands(
    found: Forecast, findings: Sequence[Finding], skins: Sequence[SteelSkin]
) -> tuple[float, PlanState, Why]:
    trouble = found.trouble.words if found.trouble is not None else NOTHING
    return how_it_stands(found, trouble, findings, (), [short for short in (short_skin(skins),) if short])


def at_the_fire(heats: int) -> Span:
    """How long so many heats keep a smith at the fire: in whole hours, or half an hour or one at most.

    >>> str(at_the_fire(37)), str(at_the_fire(1))
    ('10800 to 25200 s', '0 to 1800 s')
    """
    least, most = floor(heats / _MOST_HEATS_AN_HOUR), ceil(heats / _LEAST_HEATS_AN_HOUR)
    if most > 1:
        return Span(_HOUR_S * max(least, 1), _HOUR_S * most, Kind.TIME)
    return Span(0.0, _HOUR_S * (0.5 if 2 * heats <= _LEAST_HEATS_AN_HOUR else 1.0), Kind.TIME)


def _piece(plan: Plan, name: str, extra: Mapping[str, float]) -> PlannedPiece:
    piece, reckoned = plan.recipe.pieces[name], plan.pieces[name]
    left, bar = reckoned.left_over_mm, reckoned.bar_mm
    return PlannedPiece(
        piece=name,
        metal=piece.metal,
        stock=Stock(piece.stock.shape.kind, tuple(map(mm, piece.stock.sizes_mm.values()))),
        length=mm(reckoned.length_mm),
        mass=grams(reckoned.mass_g),
        zones=tuple(_zone(plan, zone, extra.get(zone, 0.0)) for zone in piece.zones),
        marks=tuple(
            MarkOnBar(
                mm(mark.at_mm),
                mark.ends,
                mark.begins,
                None if mark.begins else _cut_in(plan.recipe, mark.ends),
            )
            for mark in reckoned.marks
        ),
        centres=tuple(HoleCentre(zone, mm(at)) for zone, at in reckoned.centres.items()),
        bar=None if bar is None else mm(bar),
        left_over=None if left is None else mm(left),
    )


def _zone(plan: Plan, zone: str, extra_mm3: float) -> BarOfZone:
    bar = plan.bar_of(zone)
    length, volume = bar.size_mm("length"), bar.volume_mm3()
    more = extra_mm3 * length / volume
    extra = mm(max(more, _LEAST_EXTRA_MM)) if more >= _WORTH_MARKING_MM else None
    return BarOfZone(zone, mm(length), Figure(volume, Kind.VOLUME), extra)


def _cut_in(recipe: Recipe, zone: str) -> int | None:
    """The first step that cuts a zone, which leaves its piece on the bar as a handle until then."""
    cuts = (step.number for step in recipe.steps if step.does(Does.CUTS_FREE) and zone in step.zones)
    return next(cuts, None)


def _step(plan: Plan, step: Step) -> PlannedStep:
    after: list[SizeLeft] = []
    taken: list[Loss] = []
    for zone, stage in plan.by_step[step.number].items():
        taken += [
            Loss(zone, cause, Figure(volume, Kind.VOLUME))
            for cause, volume in stage.taken_mm3.items()
            if volume > 0.0
        ]
        if zone in step.zones:
            after += [
                SizeLeft(f"{zone}.{name}", zone, name, mm(size))
                for name, size in stage.form_after.sizes_mm().items()
                if name not in stage.after.linked
            ]
    return PlannedStep(step_to_do(plan, step), tuple(after), tuple(taken))


def _laid(steel: LaidSteel) -> SteelToLay:
    return SteelToLay(
        steel=steel.steel,
        zone=steel.zone,
        dimension=steel.dimension,
        remains=mm(steel.remains_mm),
        needed=mm(steel.needed_mm),
        drawn=mm(steel.drawn_mm),
        left=mm(steel.left_mm),
        enough=steel.drawn_mm >= steel.needed_mm,
        parts=tuple(PartOfLaid(what, mm(size_mm)) for what, size_mm in steel.portions),
    )
