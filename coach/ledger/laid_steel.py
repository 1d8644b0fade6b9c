"""What happens to laid-on steel from the weld to the finished tool, and how thick it must be for that."""

from __future__ import annotations

from typing import NamedTuple

from coach.finish.laid import Layer, ready_mm
from coach.finish.laid import remains_mm as left_of
from coach.ledger.plan import Plan, laid_zones
from coach.ledger.skinning import skins, thinning
from coach.ledger.working import face_loss_mm
from coach.operations import operation
from coach.operations.weld import USUAL_SQUEEZE_SHARE
from coach.recipe.model import Step


class LaidSteel(NamedTuple):
    """One steel whose recipe says how thick it is to be left."""

    steel: str
    zone: str
    weld: int  # the step that lays it on
    layer: Layer
    drawn_mm: float  # its thickness ready to weld, as drawn

    @property
    def needed_mm(self) -> float:
        """How thick it must be laid on."""
        return ready_mm(self.layer)

    @property
    def left_mm(self) -> float:
        """How thick the steel that is drawn will be left."""
        return left_of(self.drawn_mm, self.layer)


def laid_steels(plan: Plan) -> tuple[LaidSteel, ...]:
    """Every steel laid on whose drawing says what is to remain of it."""
    found = []
    for steel, zone in laid_zones(plan.recipe).items():
        drawing = plan.recipe.drawing[steel]
        drawn = drawing.limits.get("thickness")
        weld = next(step for step in plan.recipe.steps if step.lays == steel)
        if drawing.remains_mm is None or drawn is None or "inset_mm" in weld.amounts:
            continue
        layer = _layer(plan, steel, zone, weld, drawing.remains_mm)
        found.append(LaidSteel(steel, zone, weld.number, layer, drawn.nominal))
    return tuple(found)


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
        teeth_mm=weld.amounts.get("teeth_mm", 0.0),
        scale_mm=scale,
        squeeze_share=weld.amounts.get("squeeze_share", USUAL_SQUEEZE_SHARE),
        forged_ratio=ratio,
    )
