"""A recipe's plan before the first heat: stock, marks, lengths to cut, steps and forecast."""

from __future__ import annotations

from math import ceil, floor
from typing import NamedTuple

from coach.bench.in_file import findings_in_file, questions_in_file
from coach.bench.planned_doubt import Decides, Doubts, where_doubt_comes_from
from coach.bench.skin import SteelSkin, planned_skins, short_skin
from coach.bench.step import StepToDo, step_to_do
from coach.bench.verdicts import Why, how_it_stands
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.head import Head, head
from coach.ledger.laid_steel import SteelToLay, laid_steels
from coach.ledger.plan import BarOfZone, Plan, PlannedCut, PlannedPiece, Row
from coach.ledger.questions import Question, questions
from coach.ledger.verdict import PlanState
from coach.ledger.weigh import Finding, weigh
from coach.ledger.workpiece import at_stock
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.operations.does import Cause, HeatKind
from coach.quantities.figure import Figure, Kind, Span, mm
from coach.recipe.model import Step

#: One smith alone at a bar of some 25 mm takes so many heats an hour (common practice, no source).
_LEAST_HEATS_AN_HOUR, _MOST_HEATS_AN_HOUR = 6, 12
#: A mark cannot be set finer than this: less extra bar is not worth telling (judgement).
_WORTH_MARKING_MM = 0.25
_LEAST_EXTRA_MM = 0.5
_HOUR_S = 3600.0


class SizeLeft(NamedTuple):
    """One size a step is expected to leave."""

    name: str  # `blade.thickness`, as commands take it
    zone: str
    dimension: str
    size: Figure


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
    at_the_fire: Span | None = None  # how long its heats take; None for cold work and for treatments
    doubt: Figure | None = None  # of the size that decides, after it; None where it does not change that


class Planned(NamedTuple):
    """Everything about a recipe before the first heat."""

    recipe: str
    title: str
    summary: str
    duration: str  # as the recipe says it
    tools: tuple[str, ...]
    pieces: tuple[PlannedPiece, ...]
    rows: tuple[Row, ...]  # of pieces that are taken from one bar
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
    decides: Decides | None  # the size it turns on, with its doubt; None where none does
    findings: tuple[Finding, ...]  # what the metal cannot do
    questions: tuple[Question, ...]  # what may well be meant, and may be a slip


def planned_tool(plan: Plan) -> Planned:
    """A plan with the way forward to the tool."""
    recipe = plan.recipe
    start = at_stock(plan)
    found = forecast(plan, None, start, 1)
    doubts = where_doubt_comes_from(plan, start, found)
    heats = sum(step.heats for step in recipe.steps)
    findings, skins = findings_in_file(recipe, weigh(plan)), planned_skins(plan)
    chance, verdict, reason = how_it_stands(found, found.trouble, findings, (), (short_skin(skins),))
    return Planned(
        recipe=recipe.name,
        title=recipe.title,
        summary=recipe.summary,
        duration=recipe.duration,
        tools=recipe.tools,
        pieces=tuple(_piece(piece, found) for piece in plan.pieces.values()),
        rows=plan.rows,
        cuts=plan.cuts,
        steps=tuple(_step(plan, step, doubts) for step in recipe.steps),
        sizes=found.sizes(recipe),
        spares=found.spares(recipe),
        finished_mass=plan.finished_mass,
        heats=heats,
        at_the_fire=at_the_fire(heats),
        skins=skins,
        laid=laid_steels(plan),
        head=head(plan),
        chance=chance,
        verdict=verdict,
        reason=reason,
        decides=doubts.decides if doubts is not None else None,
        findings=findings,
        questions=questions_in_file(recipe, questions(plan)),
    )


def how_planned(plan: Plan) -> tuple[float, PlanState, Why]:
    """The chance of a plan, its verdict and the reason, before the first heat."""
    found = forecast(plan, None, at_stock(plan), 1)
    findings = findings_in_file(plan.recipe, weigh(plan))
    return how_it_stands(found, found.trouble, findings, (), (short_skin(planned_skins(plan)),))


def at_the_fire(heats: int) -> Span:
    """How long so many heats keep a smith at the fire: in whole hours, or half an hour or one at most.

    >>> str(at_the_fire(37)), str(at_the_fire(1))
    ('10800 to 25200 s', '0 to 1800 s')
    """
    least, most = floor(heats / _MOST_HEATS_AN_HOUR), ceil(heats / _LEAST_HEATS_AN_HOUR)
    if most > 1:
        return Span(_HOUR_S * max(least, 1), _HOUR_S * most, Kind.TIME)
    return Span(0.0, _HOUR_S * (0.5 if 2 * heats <= _LEAST_HEATS_AN_HOUR else 1.0), Kind.TIME)


def _at_the_fire(step: Step) -> Span | None:
    """How long a step's heats take, by the same rule; a treatment goes by its soak and not by the hand."""
    if not step.heats or step.heat_kind not in (HeatKind.FORGING, HeatKind.WELDING):
        return None
    least, most = step.heats / _MOST_HEATS_AN_HOUR, step.heats / _LEAST_HEATS_AN_HOUR
    return Span(_HOUR_S * least, _HOUR_S * most, Kind.TIME)


def _piece(piece: PlannedPiece, found: Forecast) -> PlannedPiece:
    """A piece with what is to be marked out beyond the plan."""
    return piece._replace(zones=tuple(_zone(zone, found) for zone in piece.zones))


def _zone(zone: BarOfZone, found: Forecast) -> BarOfZone:
    extra_mm3 = found.zones[zone.zone].extra_mm3 if zone.zone in found.zones else 0.0
    more = extra_mm3 * zone.length.value / zone.volume.value
    return zone._replace(extra=mm(max(more, _LEAST_EXTRA_MM))) if more >= _WORTH_MARKING_MM else zone


def _step(plan: Plan, step: Step, doubts: Doubts | None) -> PlannedStep:
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
    doubt = doubts.after.get(step.number) if doubts is not None else None
    return PlannedStep(step_to_do(plan, step), tuple(after), tuple(taken), _at_the_fire(step), doubt)
