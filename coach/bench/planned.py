"""A recipe's plan before the first heat: stock, marks, lengths to cut, steps and forecast."""

from __future__ import annotations

from math import ceil, floor
from typing import NamedTuple

from coach.bench.in_file import questions_in_file
from coach.bench.outlook import outlook
from coach.bench.planned_doubt import Decides, Doubts, where_doubt_comes_from
from coach.bench.skin import SteelSkin
from coach.bench.step import StepToDo, step_to_do
from coach.bench.verdicts import Why
from coach.ledger.head import Head, head
from coach.ledger.laid_steel import SteelToLay, laid_steels
from coach.ledger.plan import Plan, PlannedCut, PlannedPiece, Row
from coach.ledger.questions import Question, questions
from coach.ledger.verdict import PlanState
from coach.ledger.weigh import Finding
from coach.ledger.will_pass import WillPass
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.operations.does import Cause, HeatKind
from coach.quantities.figure import Figure, Kind, Span, mm
from coach.recipe.model import Step

#: One smith alone at a bar of some 25 mm takes so many heats an hour (common practice, no source).
_LEAST_HEATS_AN_HOUR, _MOST_HEATS_AN_HOUR = 6, 12
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
    will_pass: WillPass | None  # that every size will be inside at the end; None where nothing can be said
    decides: Decides | None  # the size it turns on, with its doubt; None where none does
    findings: tuple[Finding, ...]  # what the metal cannot do
    questions: tuple[Question, ...]  # what may well be meant, and may be a slip


def planned_tool(plan: Plan) -> Planned:
    """A plan with the way forward to the tool."""
    recipe, seen = plan.recipe, outlook(plan)
    found, chance = seen.found, seen.chance
    doubts = where_doubt_comes_from(plan, seen.start, found)
    heats = sum(step.heats for step in recipe.steps)
    return Planned(
        recipe=recipe.name,
        title=recipe.title,
        summary=recipe.summary,
        duration=recipe.duration,
        tools=recipe.tools,
        pieces=seen.pieces,
        rows=plan.rows,
        cuts=plan.cuts,
        steps=tuple(_step(plan, step, doubts) for step in recipe.steps),
        sizes=seen.sizes,
        spares=found.spares(recipe),
        finished_mass=plan.finished_mass,
        heats=heats,
        at_the_fire=at_the_fire(heats),
        skins=seen.skins,
        laid=laid_steels(plan),
        head=head(plan),
        chance=chance,
        verdict=seen.verdict,
        reason=seen.reason,
        will_pass=None if found.will_pass is None else found.will_pass.held_to(chance),
        decides=doubts.decides if doubts is not None else None,
        findings=seen.findings,
        questions=questions_in_file(recipe, questions(plan)),
    )


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


def _step(plan: Plan, step: Step, doubts: Doubts | None) -> PlannedStep:
    after: list[SizeLeft] = []
    taken: list[Loss] = []
    for zone, stage in plan.by_step[step.number].items():
        taken += [
            Loss(zone, cause, Figure(volume, Kind.VOLUME))
            for cause, volume in stage.taken_mm3.items()
            if volume > 0.0
        ]
        if zone in (step.parts or step.zones):
            after += [
                SizeLeft(f"{zone}.{name}", zone, name, mm(size))
                for name, size in stage.form_after.sizes_mm().items()
                if name not in stage.after.linked
            ]
    doubt = doubts.after.get(step.number) if doubts is not None else None
    return PlannedStep(step_to_do(plan, step), tuple(after), tuple(taken), _at_the_fire(step), doubt)
