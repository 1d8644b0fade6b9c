"""Weighs what a haft is fitted to: an eye, a socket, a ring or a tang, and never the solid body of a tool."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from coach.ledger.plan import Plan
from coach.operations import Does
from coach.quantities import Words, mm, say
from coach.recipe.model import Step, ZoneDrawing

#: The sizes of plain bars: whatever has another has a hole, a bend or a thinner end.
_PLAIN: Final = frozenset({"width", "thickness", "side", "diameter", "across_flats", "length"})
_ACROSS: Final = ("thickness", "side", "diameter", "across_flats")
#: A tang that does not taper is no thicker than this, mm (judgement).
_THICKEST_TANG_MM: Final = 16.0
#: Forms that are made to take a haft.
_SEATS: Final = ("eyed", "socket")
#: A hole at least so wide takes a haft; a smaller one a nail or a cord (judgement), mm.
_LEAST_EYE_MM: Final = 10.0


def no_seat(drawing: Mapping[str, ZoneDrawing], zone: str, beside: tuple[str, ...]) -> Words | None:
    """Why a zone holds no haft, with the zone `beside` it that does; None where it may."""
    drawn = drawing[zone]
    seat = next((one for one in beside if one != zone and is_seat(drawing[one])), None)
    thick_mm = max((drawn.limits[name].nominal for name in _ACROSS if name in drawn.limits), default=0.0)
    if not ({*drawn.limits} <= _PLAIN) or thick_mm <= _THICKEST_TANG_MM:
        return None
    return say(
        "a haft goes into an eye or a socket, or over a tang, and {} is solid and {} thick: {}.",
        *(zone, mm(thick_mm)),
        say("fit it to {}", seat) if seat is not None else "give it one, or fit the haft to another zone",
    )


def is_seat(drawn: ZoneDrawing) -> bool:
    """Whether a zone is drawn with an eye or a socket for a haft."""
    wide = drawn.limits.get("hole_width", drawn.limits.get("mouth_diameter"))
    return drawn.shape.kind in _SEATS and (wide is None or wide.nominal >= _LEAST_EYE_MM)


def haft_without_seat(plan: Plan, step: Step) -> Words | None:
    """A haft that is to be fitted to a solid bar."""
    if not step.does(Does.FITS_A_HAFT):
        return None
    drawing, zone = plan.recipe.drawing, step.zones[0]
    return no_seat(drawing, zone, plan.recipe.piece_of(zone).finished_zones) if zone in drawing else None
