"""A recipe's plan before the first heat: stock, marks, lengths to cut, steps and forecast."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import ceil, floor
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from coach.bench.blows_a_heat import blows_begun_with
from coach.bench.in_file import questions_in_file
from coach.bench.outlook import outlook
from coach.bench.planned_doubt import Decides, Doubts, where_doubt_comes_from
from coach.bench.skin import SteelSkin
from coach.bench.step import StepToDo, step_to_do
from coach.bench.verdicts import Why
from coach.ledger.head import Head, head
from coach.ledger.laid_steel import SteelToLay, laid_steels, planned_longer_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan, PlannedCut, PlannedPiece, Row
from coach.ledger.questions import Question, questions
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves
from coach.ledger.verdict import PlanState
from coach.ledger.weigh import Finding
from coach.ledger.will_pass import WillPass
from coach.ledger.working import ZoneState
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.operations.does import AT_THE_HAMMER, Cause
from coach.quantities.figure import Figure, Kind, Span, mm
from coach.quantities.words import Words
from coach.recipe.model import Step

if TYPE_CHECKING:
    from coach.bench.begun_with import Known
    from coach.log.kinds.shop_known import ShopKnown

#: One smith alone at a bar of some 25 mm takes so many heats an hour (common practice, no source).
_LEAST_HEATS_AN_HOUR, _MOST_HEATS_AN_HOUR = 6, 12
_HOUR_S = 3600.0
NOTHING_KNOWN: Mapping[str, ShopKnown] = MappingProxyType({})


class SizeLeft(NamedTuple):
    """One size a step is expected to leave."""

    name: str  # `blade.thickness`, as commands take it
    zone: str
    dimension: str
    size: Figure
    beaten: Figure | None = (
        None  # what its metal makes in one section, where steel stands out of it; else None
    )


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


class Published(NamedTuple):
    """How a plan would stand by the published figures alone."""

    verdict: PlanState
    chance: float  # that the whole drawing comes out


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
    shops_own: tuple[Words, ...] = ()  # what of it goes by the shop's own figures, with the jobs they rest on
    published: Published | None = None  # by the published ones; `null` where none is the shop's own
    heats_here: int | None = None  # so many as this shop takes where those are planned; `null` if not known


def planned_tool(plan: Plan, known: Iterable[Known] = ()) -> Planned:
    """A plan with the way forward to the tool; `known` is what it is begun with of the shop and the hand."""
    known = tuple(known)
    recipe, seen = plan.recipe, outlook(plan, known)
    found, chance = seen.found, seen.chance
    by_book, of_shop, own = None, NOTHING_KNOWN, NOT_TAUGHT
    if known:
        from coach.bench.begun_with import among
        from coach.bench.own_tempers import curves_begun_with

        by_book, of_shop, own = outlook(plan), among(known), curves_begun_with(known)
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
        steps=tuple(_step(plan, step, doubts, of_shop, own) for step in recipe.steps),
        sizes=seen.sizes,
        spares=found.spares(recipe),
        finished_mass=plan.finished_mass,
        heats=heats,
        at_the_fire=at_the_fire(heats, of_shop),
        heats_here=round(_heats_here(recipe.steps, of_shop["heats"])) if "heats" in of_shop else None,
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
        shops_own=tuple(one.in_short() for one in known),
        published=Published(by_book.verdict, by_book.chance) if by_book is not None else None,
    )


def _heats_here(steps: Iterable[Step], known: ShopKnown) -> float:
    """So many as this shop takes: what a treatment asks for hangs on no hammer."""
    return sum(one.heats * (known.value if one.heat_kind in AT_THE_HAMMER else 1.0) for one in steps)


def at_the_fire(heats: int, of_shop: Mapping[str, ShopKnown] = NOTHING_KNOWN) -> Span:
    """How long so many heats keep a smith at the fire: in whole hours, or half an hour or one at most.

    At the usual pace, or at the shop's own where that is known.

    >>> str(at_the_fire(37)), str(at_the_fire(1))
    ('10800 to 25200 s', '0 to 1800 s')
    """
    span = _time_of(heats, of_shop)
    least, most = floor(span.low / _HOUR_S), ceil(span.high / _HOUR_S)
    if most > 1:
        return Span(_HOUR_S * max(least, 1), _HOUR_S * most, Kind.TIME)
    return Span(0.0, _HOUR_S * (0.5 if span.high <= _HOUR_S / 2.0 else 1.0), Kind.TIME)


def _time_of(heats: int, of_shop: Mapping[str, ShopKnown]) -> Span:
    for_one = of_shop["heats"].value if "heats" in of_shop else 1.0
    if "pace" not in of_shop:
        rates = (_MOST_HEATS_AN_HOUR, _LEAST_HEATS_AN_HOUR)
        least, most = (_HOUR_S * heats * for_one / rate for rate in rates)
        return Span(least, most, Kind.TIME)
    from coach.bench.time_ahead import pace_of

    return pace_of((), of_shop["pace"]).of(heats * for_one)


def _at_the_fire(step: Step, of_shop: Mapping[str, ShopKnown]) -> Span | None:
    """How long a step's heats take, by the same rule; a treatment goes by its soak and not by the hand."""
    if not step.heats or step.heat_kind not in AT_THE_HAMMER:
        return None
    return _time_of(step.heats, of_shop)


def taken_of(stage: Stage, of_shop: Mapping[str, ShopKnown]) -> dict[Cause, float]:
    """What a step is planned to take of a zone, by cause in mm³, by the shop's fire and heats if known."""
    times = of_shop["scale"].value if "scale" in of_shop else 1.0
    if "heats" in of_shop and stage.step.heat_kind in AT_THE_HAMMER:
        times *= of_shop["heats"].value
    return {cause: one * (times if cause is Cause.SCALE else 1.0) for cause, one in stage.taken_mm3.items()}


def _left(plan: Plan, step: Step, after: ZoneState, name: str, size_mm: float) -> SizeLeft:
    longer_mm = planned_longer_mm(plan, after.zone, step.number) if name == after.free else 0.0
    left = SizeLeft(f"{after.zone}.{name}", after.zone, name, mm(size_mm + longer_mm))
    return left._replace(beaten=mm(size_mm)) if longer_mm else left


def _step(
    plan: Plan, step: Step, doubts: Doubts | None, of_shop: Mapping[str, ShopKnown], own: OwnCurves
) -> PlannedStep:
    after: list[SizeLeft] = []
    taken: list[Loss] = []
    for zone, stage in plan.by_step[step.number].items():
        taken += [
            Loss(zone, cause, Figure(volume, Kind.VOLUME))
            for cause, volume in taken_of(stage, of_shop).items()
            if volume > 0.0
        ]
        if zone in (step.parts or step.zones):
            after += [
                _left(plan, step, stage.after, name, size)
                for name, size in stage.form_after.sizes_mm().items()
                if name not in stage.after.linked
            ]
    doubt = doubts.after.get(step.number) if doubts is not None else None
    blows = blows_begun_with(of_shop, step.operation) if step.heats and of_shop else None
    todo = step_to_do(plan, step, own=own)._replace(blows=blows)
    return PlannedStep(todo, tuple(after), tuple(taken), _at_the_fire(step, of_shop), doubt)
