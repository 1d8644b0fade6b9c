"""The wedge of an edge: its angle, how wide its bevel is and what the stone takes off it."""

from __future__ import annotations

from functools import partial
from typing import Final, NamedTuple

from coach.finish.edge import (
    Sides,
    angle_deg,
    bevel_face_mm,
    bevel_width_mm,
    edge_angles,
    ground_mm2,
)
from coach.metals.thermal import DENSITY_KG_M3
from coach.quantities import Shown, write_angle, write_length, write_mass
from coach.reckoner.asking.reading import NotReckoned, write_fine

#: The metal ground away is told for this much edge: 100 mm, or 4 in where inches are shown.
TOLD_EDGES_MM: Final = {"mm": 100.0, "in": 101.6}

_G_MM3: Final = DENSITY_KG_M3 * 1e-6


class UsualAngleView(NamedTuple):
    """The angle that a kind of edge is usually ground to."""

    tool: str  # the kind of edge
    low: float  # the least angle
    high: float | None  # None where no upper end is told
    text: str
    source: str  # with how far it is confirmed, in brackets at its end


class EdgeView(NamedTuple):
    """A wedge, and how it is ground out of a flat bar."""

    sides: int  # that are ground
    angle: float  # between the two faces that meet in the edge, degrees
    angle_text: str
    thickness: float  # behind the bevel
    thickness_text: str
    edge: float  # thickness of the edge itself
    edge_text: str
    bevel: float  # how far it reaches back along the tool
    bevel_text: str
    face: float  # the ground face on its slope, as a rule laid on it reads
    face_text: str
    ground: float  # mm³ for each mm of edge
    ground_mass: float  # g for each mm of edge
    ground_text: str  # for 100 mm of edge, or 4 in where inches are shown
    usual: tuple[UsualAngleView, ...]  # usual angles


def edge(
    thickness_mm: float,
    edge_mm: float,
    shown: Shown,
    *,
    degrees: float | None = None,
    bevel_mm: float | None = None,
    one_sided: bool = False,
) -> EdgeView:
    """The bevel of an angle, or the angle of a bevel, whichever is given, on steel of one thickness.

    Raises NotReckoned unless one of them is given, and FinishError for sizes that make no wedge. Elementary
    geometry, by `coach.finish.edge`.

    >>> round(edge(4.934, 0.5, Shown(), degrees=25).bevel, 2)
    10.0
    """
    if (degrees is None) == (bevel_mm is None):
        raise NotReckoned("Give either the --angle of the edge or the width of its --bevel.")
    sides: Sides = 1 if one_sided else 2
    if degrees is None:
        assert bevel_mm is not None
        degrees = _angle_deg(thickness_mm, edge_mm, bevel_mm, sides)
    along_mm = bevel_width_mm(degrees, thickness_mm, edge_mm, sides)
    face_mm = bevel_face_mm(degrees, thickness_mm, edge_mm, sides)
    ground = ground_mm2([(0.0, thickness_mm)], degrees, edge_mm, sides)
    say = partial(write_length, shown=shown)
    told_mm = TOLD_EDGES_MM[shown.system]
    return EdgeView(
        sides=sides,
        angle=degrees,
        angle_text=write_angle(degrees),
        thickness=thickness_mm,
        thickness_text=say(thickness_mm),
        edge=edge_mm,
        edge_text=write_fine(edge_mm, shown),
        bevel=along_mm,
        bevel_text=say(along_mm),
        face=face_mm,
        face_text=say(face_mm),
        ground=ground,
        ground_mass=ground * _G_MM3,
        ground_text=f"{write_mass(ground * _G_MM3 * told_mm, shown)} for {say(told_mm)} of edge",
        usual=tuple(
            UsualAngleView(one.tool, one.low_deg, one.high_deg, _span(one.low_deg, one.high_deg), one.source)
            for one in edge_angles()
        ),
    )


def _angle_deg(thickness_mm: float, edge_mm: float, bevel_mm: float, sides: Sides) -> float:
    if sides == 2:
        return angle_deg(edge_mm, thickness_mm, bevel_mm)
    # A wedge ground on one side is half of one that is twice as thick.
    return angle_deg(2.0 * edge_mm, 2.0 * thickness_mm, bevel_mm) / 2.0


def _span(low_deg: float, high_deg: float | None) -> str:
    if high_deg is None:
        return f"{low_deg:g}° or more"
    return f"{low_deg:g}°" if low_deg == high_deg else f"{low_deg:g} to {high_deg:g}°"
