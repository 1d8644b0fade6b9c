"""What happens to laid-on steel from the weld to the finished tool, and how big it must be for that."""

from __future__ import annotations

from typing import NamedTuple

from coach.finish.laid import (
    Layer,
    Portion,
    Tongue,
    portions,
    ready_mm,
    tongue_left_mm,
    tongue_mm,
    tongue_portions,
)
from coach.finish.laid import remains_mm as layer_left_mm
from coach.ledger.plan import Plan, laid_zones
from coach.ledger.skinning import ground_off, skins, thinning
from coach.ledger.working import face_loss_mm
from coach.operations import operation
from coach.operations.weld import USUAL_SQUEEZE_SHARE
from coach.recipe.model import Step


class LaidSteel(NamedTuple):
    """One steel whose recipe says how much of it is to be left."""

    steel: str
    zone: str
    weld: int  # the step that lays it on
    dimension: str  # thickness of what is laid on a face, length of what is driven into a cleft
    remains_mm: float  # to be left
    drawn_mm: float  # as drawn, ready to weld
    needed_mm: float  # it must be that big when it is laid on
    left_mm: float  # what will be left of what is drawn
    portions: tuple[Portion, ...]
    taken_back_mm: float = 0.0  # off its end, after it was laid on


def laid_steels(plan: Plan) -> tuple[LaidSteel, ...]:
    """Every steel laid on whose drawing says what is to remain of it."""
    found = []
    for steel, zone in laid_zones(plan.recipe).items():
        weld = next(step for step in plan.recipe.steps if step.lays == steel)
        remains = plan.recipe.drawing[steel].remains_mm
        if remains is None:
            continue
        one = _in_cleft if "inset_mm" in weld.amounts else _on_face
        sized = one(plan, steel, zone, weld, remains)
        if sized is not None:
            found.append(sized)
    return tuple(found)


def _on_face(plan: Plan, steel: str, zone: str, weld: Step, remains: float) -> LaidSteel | None:
    drawn = plan.recipe.drawing[steel].limits.get("thickness")
    if drawn is None:
        return None
    layer = _layer(plan, steel, zone, weld, remains)
    left = layer_left_mm(drawn.nominal, layer)
    parts = portions(layer)
    return LaidSteel(
        steel, zone, weld.number, "thickness", remains, drawn.nominal, ready_mm(layer), left, parts
    )


def _in_cleft(plan: Plan, steel: str, zone: str, weld: Step, remains: float) -> LaidSteel | None:
    """Steel in a cleft is sized by its length back from the edge, where it is the whole thickness."""
    drawn = plan.recipe.drawing[steel].limits.get("length")
    stages = [stage for stage in plan.stages[zone] if stage.step.number >= weld.number]
    welded, last = stages[0].form_after, stages[0].form_after
    ground = taken_back = plan.recipe.drawing[steel].taken_back_mm
    for stage in stages[1:]:
        if operation(stage.step.operation).FIXES:
            dimension, off = ground_off(stage) or ("", 0.0)
            ground += stage.step.loses.length_mm or (off if dimension == "length" else 0.0)
        else:
            last = stage.form_after
    if drawn is None or not {"length"} <= welded.sizes_mm().keys() & last.sizes_mm().keys():
        return None
    stretch = last.size_mm("length") / welded.size_mm("length")
    tongue = Tongue(remains, ground, stretch, weld.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE))
    left = tongue_left_mm(drawn.nominal, tongue)
    parts = tongue_portions(tongue)
    return LaidSteel(
        steel, zone, weld.number, "length", remains, drawn.nominal, tongue_mm(tongue), left, parts, taken_back
    )


def _layer(plan: Plan, steel: str, zone: str, weld: Step, remains: float) -> Layer:
    recipe = plan.recipe
    ratio, scale = 1.0, 0.0
    for stage in plan.stages[zone]:
        step = stage.step
        if step.number < weld.number:
            continue
        if not operation(step.operation).FIXES:
            ratio *= thinning(step, stage)
        if zone in step.heated:
            scale += step.heats * face_loss_mm(recipe.scale, step.heat_kind, step.temperature_c)
    skin = next((one for one in skins(plan) if one.steel == steel), None)
    grinding = skin.grinding if skin is not None else None
    return Layer(
        remains_mm=remains,
        skin_mm=grinding.skin_mm if grinding is not None else skin.end_mm if skin is not None else 0.0,
        ground_mm=grinding.ground_mm / grinding.faces if grinding is not None else 0.0,
        barbs_mm=weld.amounts.get("barbs_mm", 0.0),
        scale_mm=scale,
        squeeze_share=weld.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE),
        forged_ratio=ratio,
    )
