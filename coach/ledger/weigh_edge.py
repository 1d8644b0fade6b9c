"""Weighs edge angles: what is no edge at all, and what hardly ever is one."""

from __future__ import annotations

from math import inf
from typing import Final

from coach.ledger.body_angle import body_angle
from coach.ledger.plan import Plan
from coach.ledger.skinning import Skin
from coach.operations import Does, operation
from coach.quantities import Kind, Span, Wanted, Words, degrees, mm, say
from coach.recipe.model import Step, ZoneDrawing

#: From so many degrees on there is no edge (by definition).
_FLAT_DEG: Final = 180.0
#: Razors have some 15°, knives 30°, cold chisels 60° to 70°; hardly any edge lies outside of this (common
#: practice, no source).
_USUAL_DEG: Final = (7.0, 100.0)


#: An angle is seen to differ by so much (judgement).
_SAME_DEG: Final = 0.5
#: An edge is ground on what is thinner than this, mm (judgement).
_THINNEST_MM: Final = 6.0
#: Both skins may take so much of an edge before it is told (judgement).
_SKIN_SHARE: Final = 0.8
_THIN: Final = ("edge", "end_thickness", "end_width", "end_side", "end_diameter", "thickness")


def blunt_zone(plan: Plan, step: Step) -> Words | None:
    """An edge on a zone that is nowhere thin, where another one is."""
    if not step.does(Does.WORKS_AN_EDGE) or operation(step.operation).FIXES:
        return None
    drawing = plan.recipe.drawing
    thin = {zone: _thinnest_mm(drawn) for zone, drawn in drawing.items()}
    blunt = next((zone for zone in step.zones if thin.get(zone, 0.0) > _THINNEST_MM), None)
    others = [
        zone for zone, across_mm in thin.items() if across_mm <= _THINNEST_MM and zone not in step.zones
    ]
    if blunt is None or not others:
        return None
    return say(
        "Step {}, {}: {} is nowhere thinner than {}, and {} is: is another zone meant?",
        *(step.number, step.title, blunt, mm(thin[blunt]), others[-1]),
    )


def _thinnest_mm(drawn: ZoneDrawing) -> float:
    return min((drawn.limits[name].nominal for name in _THIN if name in drawn.limits), default=inf)


def no_edge(step: Step) -> Words | None:
    """An angle that two faces cannot meet at."""
    limits = step.targets.get("edge_angle")
    if limits is None or limits.nominal < _FLAT_DEG:
        return None
    return say(
        "an edge of {} is none: its faces meet at less than {}.", degrees(limits.nominal), degrees(_FLAT_DEG)
    )


def flatter_than_body(plan: Plan, step: Step) -> Words | None:
    """An angle that is less than the faces behind the edge make by themselves.

    A step that only takes an edge off moves no metal behind it; one that grinds the faces has its own sizes.
    """
    limits, stage = step.targets.get("edge_angle"), plan.by_step[step.number].get(step.zones[0])
    if limits is None or stage is None or not step.does(Does.WORKS_AN_EDGE):
        return None
    own_deg = body_angle(stage.form_after.sizes_mm(), stage.after.shape.options).degrees
    if own_deg <= max(limits.nominal, limits.high) + _SAME_DEG:
        return None
    return say(
        "an edge of {}, and the faces of {} behind it meet at {} by themselves: no bevel comes to it. Ask "
        "for more than that, or make {} thinner or longer.",
        *(Wanted(limits, Kind.ANGLE), step.zones[0], degrees(own_deg), step.zones[0]),
    )


def edge_without_carbon(plan: Plan, skin: Skin) -> tuple[Step, Words] | None:
    """An edge that no step grinds and that is hardly thicker than the skins of both its faces: its quench.

    Of steel that lies on iron one face is shielded, and what that takes is told as what remains of it.
    """
    if skin.steel != skin.zone:
        return None
    quench = next(
        (one for one in reversed(plan.recipe.steps) if one.does(Does.QUENCHES) and skin.zone in one.zones),
        None,
    )
    stage = plan.by_step[quench.number].get(skin.zone) if quench is not None else None
    if quench is None or stage is None:
        return None
    sizes = stage.form_before.sizes_mm()
    thin_mm = min((sizes[name] for name in _THIN if name in sizes), default=inf)
    if 2.0 * skin.left_mm < _SKIN_SHARE * thin_mm:
        return None
    words = (
        "by then the fire may have taken the carbon out of {} of each face, and {} is {} thick at its edge: "
        "what is left does not harden. Leave it thicker, and grind it after the temper."
    )
    return quench, say(words, mm(skin.left_mm), skin.zone, mm(thin_mm))


def odd_edge(step: Step) -> Words | None:
    """An angle that hardly any edge has."""
    limits = step.targets.get("edge_angle")
    if limits is None or limits.nominal >= _FLAT_DEG or _USUAL_DEG[0] <= limits.nominal <= _USUAL_DEG[1]:
        return None
    return say(
        "Step {}, {}: an edge of {}, where edges have from {}: is that angle meant?",
        *(step.number, step.title, degrees(limits.nominal), Span(*_USUAL_DEG, Kind.ANGLE)),
    )
