"""What happens to laid-on steel from the weld to the finished tool, and how big it must be for that."""

from __future__ import annotations

from typing import Final, NamedTuple

from coach.finish import laid
from coach.ledger.in_cleft import expected_share_mm, stands_out_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.running import mean_thickness_mm
from coach.ledger.skinning import ground_off, skins, thinning
from coach.ledger.working import face_loss_mm
from coach.operations import operation
from coach.operations.weld import USUAL_SQUEEZE_SHARE
from coach.quantities import Figure, mm
from coach.recipe.model import Step

#: Steel is drawn and told to a tenth of a millimetre: what lacks less than that shows is enough (our choice).
_SHOWN_PLACES = 1
#: Steel that is more than this share of all that is welded leaves hardly any bar under it (judgement).
_MOST_OF_WELD: Final = 0.8
#: Steel up to so many times as long as its bar is thick may lie on the end of it (judgement).
_ON_END_TIMES = 1.25


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
    parts: tuple[laid.Portion, ...]  # what takes of it
    pressed_to: Figure | None = None  # what its weld presses both to, where no thickness of it leaves enough


class SteelLeft(NamedTuple):
    """What will be left of a steel of which some was lost since it was laid on."""

    steel: str
    zone: str
    dimension: str  # thickness on a face, length in a cleft
    left: Figure
    remains: Figure  # to be left

    @property
    def is_short(self) -> bool:
        """Whether that is less than is to remain, as it is told."""
        return round(self.left.value, _SHOWN_PLACES) < round(self.remains.value, _SHOWN_PLACES)


def laid_steels(plan: Plan) -> tuple[SteelToLay, ...]:
    """Every steel laid on whose drawing says what is to remain of it.

    Steel in a cleft is sized by its length back from the edge, where it is the whole thickness.
    """
    found = []
    for steel, weld in plan.recipe.welds.items():
        zone = weld.zones[0]
        drawing = plan.recipe.drawing[steel]
        dimension = "length" if "inset_mm" in weld.amounts else "thickness"
        remains, limits = drawing.remains_mm, drawing.limits.get(dimension)
        if remains is None or limits is None:
            continue
        layer = (_tongue if dimension == "length" else _layer)(plan, steel, zone, weld, remains)
        if layer is None:
            continue
        drawn_mm, left_mm = limits.nominal, laid.remains_mm(limits.nominal, layer)
        enough = round(drawn_mm, _SHOWN_PLACES) >= round(laid.ready_mm(layer), _SHOWN_PLACES)
        welded = _welded(plan, zone, weld)
        pressed = None if enough or dimension == "length" else _pressed(plan, steel, welded)
        most_mm = _MOST_OF_WELD * drawn_mm * welded.after_mm3 / welded.laid_mm3
        thick_enough = _of_thickness_needed(pressed, layer, drawn_mm, most_mm)
        needs = thick_enough or layer
        found.append(
            SteelToLay(
                steel=steel,
                zone=zone,
                dimension=dimension,
                remains=mm(remains),
                needed=mm(laid.ready_mm(needs)),
                drawn=mm(drawn_mm),
                left=mm(left_mm),
                enough=enough,
                parts=laid.portions(needs),
                pressed_to=mm(pressed.left_mm) if pressed is not None and thick_enough is None else None,
            )
        )
    return tuple(found)


def left_of(plan: Plan, steel: SteelToLay, share: float, doubt_share: float = 0.0) -> Figure:
    """What will be left of it in the end where only that share of it is there still, in mm.

    With its doubt, where that share has one. What is lost of a plate is taken as lost of its thickness, of
    steel in a cleft as lost of its length.
    """
    read = _tongue if steel.dimension == "length" else _layer
    layer = read(plan, steel.steel, steel.zone, plan.recipe.welds[steel.steel], steel.remains.value)
    if layer is None:
        return steel.left
    return mm(laid.remains_mm(share * steel.drawn.value, layer), doubt_share * steel.drawn.value)


def planned_longer_mm(plan: Plan, zone: str, number: int) -> float:
    """How much longer than its metal in one section a zone is planned to be read after a step, mm.

    As on the bench: from the weld that lays steel in its cleft until a step makes another form of both.
    """
    longer_mm, stages = 0.0, plan.stages[zone]
    for stage in stages:
        if stage.step.number > number:
            break
        if stage.lays is not None:
            own = plan.stages[stage.lays]
            steel = own[-1].form_after if own else plan.bar_of(stage.lays)
            ahead = (one.after.shape for one in stages if one.step.number > stage.step.number)
            out_mm = stands_out_mm(stage.step, steel, stage.form_after, stage.after.shape, ahead)
            longer_mm = expected_share_mm(out_mm)
        elif stage.after.shape.kind != stage.before.shape.kind or operation(stage.step.operation).FIXES:
            longer_mm = 0.0
    return longer_mm


def _tongue(plan: Plan, steel: str, zone: str, weld: Step, remains: float) -> laid.Layer | None:
    welded, *since = (stage for stage in plan.stages[zone] if stage.step.number >= weld.number)
    first = last = welded.form_after
    ground = plan.recipe.drawing[steel].taken_back_mm
    for stage in since:
        if operation(stage.step.operation).FIXES:
            dimension, off = ground_off(stage) or ("", 0.0)
            ground += stage.step.loses.length_mm or (off if dimension == "length" else 0.0)
        else:
            last = stage.form_after
    if not {"length"} <= first.sizes_mm().keys() & last.sizes_mm().keys():
        return None
    shapes = [stage.after.shape for stage in since]
    own = plan.stages[steel]
    laid_form = own[-1].form_after if own else plan.bar_of(steel)
    out_mm = stands_out_mm(weld, laid_form, first, welded.after.shape, shapes)
    stretch = last.size_mm("length") / (first.size_mm("length") + out_mm)  # of both, laid end to end
    squeezed = weld.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE)
    return laid.Layer(remains, ground_mm=ground, squeeze_share=squeezed, forged_ratio=stretch, in_cleft=True)


def _layer(plan: Plan, steel: str, zone: str, weld: Step, remains: float) -> laid.Layer:
    recipe = plan.recipe
    ratio, scale = 1.0, 0.0
    for stage in plan.stages[zone]:
        step = stage.step
        if step.number < weld.number:
            continue
        if step.number == weld.number:
            pressed = _pressed(plan, steel, stage)
            ratio *= pressed.ratio if pressed is not None else 1.0
        elif not operation(step.operation).FIXES:
            ratio *= thinning(stage)
        if zone in step.heated:
            scale += step.heats * face_loss_mm(recipe.scale, step.heat_kind, step.temperature_c)
    skin = next((one for one in skins(plan) if one.steel == steel), None)
    grinding = skin.grinding if skin is not None else None
    on_end = grinding is not None and grinding.dimension == "length"
    taken_back_mm = recipe.drawing[steel].taken_back_mm if on_end else 0.0
    return laid.Layer(
        remains_mm=remains,
        skin_mm=grinding.skin_mm if grinding is not None else skin.end_mm if skin is not None else 0.0,
        ground_mm=taken_back_mm + (grinding.ground_mm / grinding.faces if grinding is not None else 0.0),
        barbs_mm=weld.amounts.get("barbs_mm", 0.0),
        scale_mm=scale,
        squeeze_share=weld.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE),
        forged_ratio=ratio,
    )


def _welded(plan: Plan, zone: str, weld: Step) -> Stage:
    return next(stage for stage in plan.stages[zone] if stage.step.number == weld.number)


class _Pressed(NamedTuple):
    """Steel that lies flat on its bar, and the thickness that a weld presses both to, mm."""

    steel_mm: float
    bar_mm: float
    left_mm: float

    @property
    def ratio(self) -> float:
        """How thin it leaves them, as a share of both: both thin alike (judgement)."""
        return min(self.left_mm / (self.bar_mm + self.steel_mm), 1.0)


def _pressed(plan: Plan, steel: str, stage: Stage) -> _Pressed | None:
    """What a weld presses; None for steel no longer than its bar is thick, which lies on the end of it."""
    own = plan.stages[steel]
    laid_form, shape = (own[-1].form_after, own[-1].after.shape) if own else (plan.bar_of(steel), None)
    sizes = laid_form.sizes_mm()
    steel_mm = mean_thickness_mm(shape, sizes) if shape is not None else sizes.get("thickness", 0.0)
    bar_mm = mean_thickness_mm(stage.before.shape, stage.form_before.sizes_mm())
    left_mm = mean_thickness_mm(stage.after.shape, stage.form_after.sizes_mm())
    on_end = sizes.get("length", 0.0) <= _ON_END_TIMES * bar_mm
    return None if on_end or not (steel_mm and bar_mm and left_mm) else _Pressed(steel_mm, bar_mm, left_mm)


def _of_thickness_needed(
    pressed: _Pressed | None, layer: laid.Layer, drawn_mm: float, most_mm: float
) -> laid.Layer | None:
    """The layer as it is of steel that is thick enough; None where that is more than `most_mm`.

    Thicker steel is pressed more by a weld to the same thickness: t = (t₁ − b) · (bar + m · t) / left + b,
    with t₁ what is needed where nothing is pressed, b what its barbs lose and m its mean thickness for each
    of t (arithmetic: what both hold stays).
    """
    if pressed is None:
        return layer
    free = layer._replace(forged_ratio=layer.forged_ratio / pressed.ratio)
    barbs_mm, mean = layer.barbs_mm * layer.barbs_lost_share, pressed.steel_mm / drawn_mm
    share = (laid.ready_mm(free) - barbs_mm) / pressed.left_mm
    if pressed.bar_mm + mean * laid.ready_mm(free) <= pressed.left_mm:
        return free
    if share * mean >= 1.0:
        return None
    needed_mm = (share * pressed.bar_mm + barbs_mm) / (1.0 - share * mean)
    if needed_mm > most_mm:
        return None
    ratio = pressed._replace(steel_mm=mean * needed_mm).ratio
    return layer._replace(forged_ratio=free.forged_ratio * ratio)
