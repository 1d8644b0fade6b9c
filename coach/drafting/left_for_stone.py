"""What a proposal leaves on a thin hard edge for the stone: the fire takes the carbon out of its faces."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from coach.drafting.proposed import Proposed
from coach.ledger.plan import Plan
from coach.ledger.skinning import skins, told_upwards_mm
from coach.metals.skin import allowance_mm
from coach.operations import operation
from coach.quantities import Limits
from coach.quantities.units import System
from coach.recipe.limits_written import size_text
from coach.recipe.model import ZoneDrawing

#: An end no thicker than this is an edge (judgement), mm.
EDGE_MM = 3.5
#: What the heats of the treatment scale off both its faces, mm (judgement).
_SCALED_MM = 0.2
#: Steel of its own has a skin on both faces (by definition).
_FACES = 2


def edge_of(drawn: ZoneDrawing) -> str:
    """The size that is the edge of a zone; empty where it has no edge."""
    for name in ("end_thickness", "edge"):
        if name in drawn.limits and drawn.limits[name].nominal <= EDGE_MM:
            return name
    return ""


def left_for_stone_mm(plan: Plan, hard: Collection[str]) -> dict[str, float]:
    """By how much the edge of each hard zone is to be forged thicker, mm: of those that no step grinds."""
    found: dict[str, float] = {}
    for skin in skins(plan):
        drawn = plan.recipe.drawing[skin.zone]
        own = skin.zone in hard and skin.steel == skin.zone and skin.grinding is None
        if own and edge_of(drawn) and skin.end_mm > 0.0:
            found[skin.zone] = told_upwards_mm(_FACES * allowance_mm(skin.end_mm) + _SCALED_MM)
    return found


def thicker(zones: Mapping[str, ZoneDrawing], stone_mm: Mapping[str, float]) -> dict[str, ZoneDrawing]:
    """The zones as they are forged."""
    return {zone: _thicker(drawn, stone_mm.get(zone, 0.0)) for zone, drawn in zones.items()}


def _thicker(drawn: ZoneDrawing, by_mm: float) -> ZoneDrawing:
    if not by_mm:
        return drawn
    name = edge_of(drawn)
    was = drawn.limits[name]
    limits = Limits(was.nominal + by_mm, was.low + by_mm, was.high + by_mm, was.stated)
    return drawn._replace(limits={**drawn.limits, name: limits})


def with_sizes(steps: Iterable[Proposed], forged: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """The steps with the sizes of what is forged, where they ask for those of the drawing."""
    said = {name: size_text(limits.nominal, unit) for name, limits in forged.limits.items()}
    for step in steps:
        todo = operation(step.operation)
        moves = todo.to_drawing and not todo.FIXES  # it forges, and says no sizes of its own
        tapers = moves and {"width", "end_thickness"} <= said.keys()
        if tapers and step.line in (forged.zone, f"{forged.zone}, long free"):
            end = f"{said.get('end_width', said['width'])} x {said['end_thickness']}"
            sizes = f"{said['width']} x {said['thickness']} to {end}, long free"
            yield step._replace(line=f"{forged.zone}, {sizes}")
        elif moves and "reach" in said and step.line == forged.zone:
            sizes = (
                f"wide {said['width']}, thick {said['thickness']}, reach {said['reach']}, edge {said['edge']}"
            )
            yield step._replace(line=f"{forged.zone}, on {_sides(forged)}, {sizes}")
        else:
            yield step


def _sides(drawn: ZoneDrawing) -> str:
    return "one side" if drawn.shape.options.get("sides") == "one" else "both sides"


def ground(drawn: ZoneDrawing, unit: System) -> Proposed:
    """The edge ground to its drawing."""
    name = edge_of(drawn)
    word = "end thick" if name == "end_thickness" else "edge"
    size = size_text(drawn.limits[name].nominal, unit)
    return Proposed(
        "grind",
        f"{drawn.zone}, {word} {size}",
        (("how", _GRIND),),
        "The fire took the carbon out of it.",
    )


_GRIND = "Both faces alike, a light hand and water beside it: no colour may show. Bright all over, then stop."
