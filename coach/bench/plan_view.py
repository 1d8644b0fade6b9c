"""A recipe's plan as it is shown and printed: stock, marks, lengths to cut, steps and forecast."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from math import ceil, floor
from typing import Literal

from coach.bench.sizes import DrawnSize, MetalToSpare, drawn_sizes, metal_to_spare
from coach.bench.skin_view import planned_skins
from coach.bench.standing import SkinView, StepView
from coach.bench.steel_view import head_text
from coach.bench.views import step_view
from coach.forms import label
from coach.ledger.forecast import forecast
from coach.ledger.head import head
from coach.ledger.laid_steel import LaidSteel, laid_steels
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState
from coach.ledger.weigh import weigh
from coach.ledger.workpiece import at_stock
from coach.ledger.zone_forecast import extra_for_confidence_mm3
from coach.operations import Does
from coach.quantities import Shown, write_count, write_length, write_mass
from coach.recipe.model import Recipe, Stock
from coach.telling.reasons import reason_text
from coach.telling.words import write


@dataclass(frozen=True, slots=True)
class MarkView:
    """One mark, from the start of the bar."""

    at: float  # mm
    text: str
    ends: str  # the zone that ends here
    begins: str | None  # the zone that begins here; `null` at the end of the piece
    cut_in: int | None  # the step that cuts the piece from its bar here; None where it is cut at once


@dataclass(frozen=True, slots=True)
class CentreView:
    """Where a hole is punched, from the start of the bar."""

    zone: str
    at: float  # mm
    text: str


@dataclass(frozen=True, slots=True)
class ZoneStockView:
    """The length of bar that a zone starts from."""

    zone: str
    length: float  # mm of bar
    text: str
    volume: float  # mm³
    extra: float  # mm of bar to mark out beyond this for a 95 % chance, 0 when it is enough
    extra_text: str


@dataclass(frozen=True, slots=True)
class PieceView:
    """One piece and what it needs of its bar."""

    piece: str  # its name
    metal: str  # what it is made of
    stock: str  # "flat 50 × 25 mm"
    length: float  # mm of bar
    length_text: str
    mass: float  # g
    mass_text: str
    zones: tuple[ZoneStockView, ...]  # a list of lengths of bar, in order
    marks: tuple[MarkView, ...]  # a list of marks, in order
    centres: tuple[CentreView, ...]  # hole centres
    bar: float | None  # mm, the bar in hand when its length is given
    left_over: float | None  # mm; negative when bar is missing
    left_over_text: str


@dataclass(frozen=True, slots=True)
class CutView:
    """A length to cut at, and how much of it is still to be drawn."""

    step: int  # the step's number
    zone: str
    length: float  # mm
    text: str
    finished: float  # mm
    short_by: float  # mm
    short_text: str


@dataclass(frozen=True, slots=True)
class AfterView:
    """One size a step is expected to leave."""

    name: str  # `blade.length`
    label: str  # as it is spoken of
    size: float  # mm
    text: str


@dataclass(frozen=True, slots=True)
class TakenView:
    """Metal a step takes from a zone, by cause."""

    zone: str  # from which zone
    cause: str  # scale, slug, kerf, offcut, squeeze, ground, stated
    volume: float  # mm³


@dataclass(frozen=True, slots=True)
class StepPlanView:
    """One step of the plan."""

    step: StepView
    after: tuple[AfterView, ...]  # sizes left
    taken: tuple[TakenView, ...]  # losses


@dataclass(frozen=True, slots=True)
class LaidView:
    """How big a steel must be when it is laid on, by what is to remain of it."""

    steel: str  # the zone that is laid on
    zone: str  # what it is laid on
    dimension: str  # thickness on a face, length in a cleft
    remains: float  # mm
    needed: float  # mm
    drawn: float  # mm
    enough: bool  # whether that will do
    parts: tuple[tuple[str, str], ...]  # what takes of it, and how much as shown
    text: str


@dataclass(frozen=True, slots=True)
class HeadView:
    """The finished head as one body."""

    mass: float  # g
    balance: float | None  # mm from the middle of the eye
    towards: str  # the zone at that end
    text: str


@dataclass(frozen=True, slots=True)
class PlanView:
    """Everything about a recipe before the first heat."""

    recipe: str  # the recipe's name
    title: str  # its title
    summary: str  # what it makes
    duration: str  # how long it takes
    tools: tuple[str, ...]  # the tools wanted
    pieces: tuple[PieceView, ...]  # pieces
    cuts: tuple[CutView, ...]  # lengths to cut: a list of cuts
    steps: tuple[StepPlanView, ...]  # planned steps
    sizes: tuple[DrawnSize, ...]  # the drawing as it can be expected to come out: a list of sizes
    spares: tuple[MetalToSpare, ...]  # spares
    finished_mass: float  # g
    finished_mass_text: str
    heats: int  # all planned heats together
    fire_text: str  # "37 heats, 3 to 7 hours at the fire"
    skins: tuple[SkinView, ...]  # a list of skins, with everything going as planned
    laid: tuple[LaidView, ...]  # a list of laid steels whose recipe says what is to remain
    head: HeadView | None  # the finished head; `null` where more than one piece is left
    chance: float  # the chance of making the drawing
    verdict: str  # `on plan`, `tight` or `off plan`
    reason: str  # the verdict's reason, one sentence
    warnings: tuple[str, ...]  # what to put right first
    units: Literal["mm", "in"]  # what sizes are shown in, `mm` or `in`


#: One smith alone at a bar of some 25 mm takes so many heats an hour (common practice, no source).
_LEAST_HEATS_AN_HOUR, _MOST_HEATS_AN_HOUR = 6, 12
#: A mark cannot be set finer than this: less extra bar is not worth telling.
_WORTH_MARKING_MM = 0.25
_LEAST_EXTRA_MM = 0.5


def plan_view(recipe: Recipe, shown: Shown) -> PlanView:
    """Look back to the stock and forward to the tool; raises LedgerError when the metal does not balance."""
    return view_of(look_back(recipe), shown)


def view_of(plan: Plan, shown: Shown) -> PlanView:
    """A plan as it is shown."""
    recipe = plan.recipe
    found = forecast(plan, None, at_stock(plan), 1)
    extra = {zone: extra_for_confidence_mm3(one) for zone, one in found.zones.items()}
    pieces = tuple(_piece(plan, name, extra, shown) for name in recipe.pieces)
    return PlanView(
        recipe=recipe.name,
        title=recipe.title,
        summary=recipe.summary,
        duration=recipe.duration,
        tools=recipe.tools,
        pieces=pieces,
        cuts=tuple(
            CutView(
                step=cut.step,
                zone=cut.zone,
                length=cut.length_mm,
                text=write_length(cut.length_mm, shown),
                finished=cut.finished_mm,
                short_by=cut.short_by_mm,
                short_text=write_length(cut.short_by_mm, shown),
            )
            for cut in plan.cuts
        ),
        steps=tuple(_step(plan, number, shown) for number in plan.by_step),
        sizes=drawn_sizes(recipe, found),
        spares=metal_to_spare(recipe, found),
        finished_mass=plan.finished_mass_g,
        finished_mass_text=write_mass(plan.finished_mass_g, shown),
        heats=sum(step.heats for step in recipe.steps),
        fire_text=fire_text(sum(step.heats for step in recipe.steps)),
        skins=planned_skins(plan, shown),
        laid=tuple(_laid(one, shown) for one in laid_steels(plan)),
        head=_head(plan, shown),
        chance=found.chance,
        verdict=found.state.value,
        reason=reason_text(found.reason, shown),
        warnings=_warnings(plan, pieces, found.state, shown),
        units=shown.system,
    )


def _piece(plan: Plan, name: str, extra: dict[str, float], shown: Shown) -> PieceView:
    piece, reckoned = plan.recipe.pieces[name], plan.pieces[name]
    zones = []
    for zone in piece.zones:
        bar = plan.bar_of(zone)
        length = bar.size_mm("length")
        more = extra.get(zone, 0.0) * length / bar.volume_mm3()
        zones.append(
            ZoneStockView(
                zone,
                length,
                write_length(length, shown),
                bar.volume_mm3(),
                more,
                write_length(max(more, _LEAST_EXTRA_MM), shown) if more >= _WORTH_MARKING_MM else "",
            )
        )
    left = reckoned.left_over_mm
    left_text = ""
    if left is not None:
        left_text = f"{write_length(abs(left), shown)} {'left over' if left >= 0.0 else 'missing'}"
    return PieceView(
        piece=name,
        metal=piece.metal,
        stock=stock_text(piece.stock, shown),
        length=reckoned.length_mm,
        length_text=write_length(reckoned.length_mm, shown),
        mass=reckoned.mass_g,
        mass_text=write_mass(reckoned.mass_g, shown),
        zones=tuple(zones),
        marks=tuple(
            MarkView(
                mark.at_mm,
                write_length(mark.at_mm, shown),
                mark.ends,
                mark.begins,
                None if mark.begins else _cut_in(plan.recipe, mark.ends),
            )
            for mark in reckoned.marks
        ),
        centres=tuple(CentreView(zone, at, write_length(at, shown)) for zone, at in reckoned.centres.items()),
        bar=reckoned.bar_mm,
        left_over=left,
        left_over_text=left_text,
    )


def _cut_in(recipe: Recipe, zone: str) -> int | None:
    """The first step that cuts a zone, which leaves its piece on the bar as a handle until then."""
    cuts = (step.number for step in recipe.steps if step.does(Does.CUTS_FREE) and zone in step.zones)
    return next(cuts, None)


def end_words(mark: MarkView) -> str:
    """What a mark is: a boundary, the end to cut at, or where a bar ends that serves as a handle."""
    if mark.begins:
        return f"{mark.ends} ends, {mark.begins} begins"
    if mark.cut_in is not None:
        return f"{mark.ends} ends, kerf and all; leave it on its bar, step {mark.cut_in} cuts it"
    return f"{mark.ends} ends: cut here"


def fire_text(heats: int) -> str:
    """How long so many heats keep a smith at the fire.

    >>> fire_text(37), fire_text(1)
    ('37 heats, 3 to 7 hours at the fire', '1 heat, up to half an hour at the fire')
    """
    told = write_count(heats, "heat")
    least, most = floor(heats / _MOST_HEATS_AN_HOUR), ceil(heats / _LEAST_HEATS_AN_HOUR)
    if not heats:
        return "no heat"
    if most <= 1:
        return (
            f"{told}, up to {'half an hour' if 2 * heats <= _LEAST_HEATS_AN_HOUR else 'an hour'} at the fire"
        )
    return f"{told}, {max(least, 1)} to {most} hours at the fire"


def stock_text(stock: Stock, shown: Shown) -> str:
    """A bar as it is asked for: "flat 50 × 25 mm"."""
    sizes = " × ".join(write_length(size, shown, unit=False) for size in stock.sizes_mm.values())
    return f"{stock.shape.kind} {sizes} {shown.system}"


def _step(plan: Plan, number: int, shown: Shown) -> StepPlanView:
    step = plan.recipe.steps[number - 1]
    after = []
    taken = []
    for zone, stage in plan.by_step[number].items():
        taken += [TakenView(zone, cause, volume) for cause, volume in stage.taken_mm3.items() if volume > 0.0]
        if zone in step.zones:
            after += [
                AfterView(f"{zone}.{name}", label(zone, name), size, write_length(size, shown))
                for name, size in stage.form_after.sizes_mm().items()
                if name not in stage.after.linked
            ]
    return StepPlanView(step_view(plan, step, shown), tuple(after), tuple(taken))


def _laid(steel: LaidSteel, shown: Shown) -> LaidView:
    say = partial(write_length, shown=shown)
    enough = steel.drawn_mm >= steel.needed_mm
    big, where = ("thick", "of steel") if steel.dimension == "thickness" else ("long", "behind the edge")
    told = f"{steel.steel}: {say(steel.needed_mm)} {big} to leave {say(steel.remains_mm)} {where}"
    told += f"; {say(steel.drawn_mm)} is drawn"
    if not enough:
        told += f" and leaves {say(steel.left_mm)}"
    return LaidView(
        steel=steel.steel,
        zone=steel.zone,
        dimension=steel.dimension,
        remains=steel.remains_mm,
        needed=steel.needed_mm,
        drawn=steel.drawn_mm,
        enough=enough,
        parts=tuple((what, say(mm)) for what, mm in steel.reasons),
        text=told,
    )


def _head(plan: Plan, shown: Shown) -> HeadView | None:
    found = head(plan)
    if found is None:
        return None
    return HeadView(found.mass_g, found.balance_mm, found.towards, head_text(found, shown))


def _warnings(plan: Plan, pieces: tuple[PieceView, ...], state: PlanState, shown: Shown) -> tuple[str, ...]:
    """What to put right before the fire is lit."""
    found = []
    for piece in pieces:
        if piece.left_over is not None and piece.left_over < 0.0:
            found.append(
                f"The bar for {piece.piece} is too short: {write_length(-piece.left_over, shown)} is missing."
            )
        for zone in piece.zones:
            if zone.extra_text and state is not PlanState.ON_PLAN:
                found.append(f"Mark {zone.zone} {zone.extra_text} longer for a 95 % chance of enough metal.")
    found += [write(finding.sentence, shown) for finding in weigh(plan)]
    return tuple(found)
