"""The wedge that an edge is: how thick it stands, how wide its bevel is and what grinding it takes away."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Final, Literal, NamedTuple

from coach.quantities.checks import check_size, finite
from coach.quantities.figure import Figure, degrees, mm
from coach.quantities.refusal import OutOfRange

Sides = Literal[1, 2]


#: An edge is a wedge below this included angle; at 180° it would be flat (our choice).
MOST_ANGLE_DEG: Final = 170.0
#: No edge is ground keener than this; a razor has some 15° (from memory).
LEAST_ANGLE_DEG: Final = 1.0


class UsualAngle(NamedTuple):
    """The included angle that a kind of edge is usually ground to."""

    tool: str  # the kind of edge
    low: Figure  # the least angle
    high: Figure | None  # the most; None where none is told
    source: str  # where they are from and how far that is confirmed


def angle_deg(edge_mm: float, thickness_mm: float, back_mm: float, sides: Sides = 2) -> float:
    """The included angle, in degrees, of a wedge that is so thick so far behind its edge, all in mm.

    α = 2 atan((h - e) / 2x) with a bevel on both sides, atan((h - e) / x) with one. Raises OutOfRange for a
    thickness that is not above that of the edge, and for an angle above MOST_ANGLE_DEG, half of it with one.

    >>> round(angle_deg(0.5, 4.934, 10), 2)
    25.0
    """
    check_size(back_mm, "distance behind the edge")
    _check_thins(thickness_mm, edge_mm)
    found_deg = sides * math.degrees(math.atan((thickness_mm - edge_mm) / sides / back_mm))
    if not 0.0 < found_deg <= MOST_ANGLE_DEG * sides / 2:
        raise OutOfRange(
            "A thickness of {} only {} behind the edge is no wedge; measure the thickness farther back.",
            mm(thickness_mm),
            mm(back_mm),
        )
    return found_deg


def bevel_width_mm(angle_deg: float, thickness_mm: float, edge_mm: float = 0.0, sides: Sides = 2) -> float:
    """How far back a bevel reaches, in mm along the tool, from edge to full thickness.

    With a bevel on both sides, x = (t - e) / (2 tan(α/2)); on one side alone, as on a chisel, tan α =
    (t - e) / x. α is the angle between the two faces that meet in the edge, in degrees. The ground face
    itself is longer: see `bevel_face_mm`. Raises OutOfRange for sizes that make no bevel.
    Elementary geometry.

    >>> round(bevel_width_mm(25, 4.934, 0.5), 2), round(bevel_width_mm(30, 4, sides=1), 2)
    (10.0, 6.93)
    """
    _check_thins(thickness_mm, edge_mm)
    return finite((thickness_mm - edge_mm) / _rise(angle_deg, sides), "bevel")


def bevel_face_mm(angle_deg: float, thickness_mm: float, edge_mm: float = 0.0, sides: Sides = 2) -> float:
    """The width of a ground face, in mm, measured on its slope, as a rule laid on the bevel reads it.

    x / cos(α/2) with a bevel on both sides, x / cos α with one, x being `bevel_width_mm`. Raises
    OutOfRange as that does. Elementary geometry.

    >>> round(bevel_face_mm(30, 4, sides=1), 3)
    8.0
    """
    along_mm = bevel_width_mm(angle_deg, thickness_mm, edge_mm, sides)
    tilt_deg = angle_deg if sides == 1 else angle_deg / 2.0
    return along_mm / math.cos(math.radians(tilt_deg))


class Bevel(NamedTuple):
    """A bevel that is ground to an edge, in mm."""

    along_mm: float  # along the tool, from the edge to where it ends
    face_mm: float  # the ground face on its slope, as a rule laid on it reads


def bevel_on_taper(angle_deg: float, edge_mm: float, own_deg: float, sides: Sides, *, flat: bool) -> Bevel:
    """The bevel of an angle, in degrees, on a body that is itself a wedge and so thick at its edge, in mm.

    Behind its edge e the body opens by β, its own angle; its face that is let be stands so far off the axis:
    γ = 0 where one face is `flat`, else β/2. On both sides x = e / (2 (tan(α/2) - tan(β/2))), on one alone
    x = e / (tan(α - γ) - tan(β - γ)); with β = 0 these are those of `bevel_width_mm`. On both sides of a body
    with a flat face it is off by less than the cosine of β/2. Raises OutOfRange for an angle that is not
    above the body's own. Elementary geometry.

    With an own angle of 20° an edge 3 mm thick is ground to 25° over 3 / (2 (0.22169 - 0.17633)) = 33 mm:

    >>> round(bevel_on_taper(25, 3, 20, 2, flat=False).along_mm, 1), round(bevel_width_mm(25, 3), 2)
    (33.1, 6.77)
    """
    if angle_deg <= own_deg:
        raise OutOfRange(
            "An edge of {} is flatter than the body behind it, whose own faces meet at {}: no bevel comes to "
            "it.",
            degrees(angle_deg),
            degrees(own_deg),
        )
    _rise(angle_deg, sides)  # refuses what no edge has
    let_be_deg = angle_deg / 2.0 if sides == 2 else 0.0 if flat else own_deg / 2.0
    tilt_deg = angle_deg - let_be_deg
    behind_deg = own_deg / 2.0 if sides == 2 else own_deg - let_be_deg
    opens = math.tan(math.radians(tilt_deg)) - math.tan(math.radians(behind_deg))
    along_mm = finite(edge_mm / sides / opens, "bevel")
    return Bevel(along_mm, along_mm / math.cos(math.radians(tilt_deg)))


def ground_mm2(thickness_mm: float, angle_deg: float, edge_mm: float = 0.0, sides: Sides = 2) -> float:
    """The area of cross-section, in mm², that grinding takes from a flat bar to make the wedge: x (t - e)/2.

    Times the length of the edge it is the volume ground away. No length is taken off the edge itself. Raises
    OutOfRange as `bevel_width_mm`, which gives x. Elementary geometry.

    A bar 6 mm thick, ground to 1 mm over 20 mm on both sides, loses 20 × 5 / 2:

    >>> round(ground_mm2(6, angle_deg(1, 6, 20), 1), 6)
    50.0
    """
    if edge_mm > thickness_mm:
        raise OutOfRange(
            "The section is {} thick at its edge, too thin for an edge of {}; forge the edge thicker or "
            "finish it thinner.",
            mm(thickness_mm),
            mm(edge_mm),
        )
    return bevel_width_mm(angle_deg, thickness_mm, edge_mm, sides) * (thickness_mm - edge_mm) / 2.0


def _rise(angle_deg: float, sides: int) -> float:
    """How much thicker the wedge gets for each mm behind its edge."""
    if sides not in (1, 2):
        raise OutOfRange(f"A bevel is ground on 1 side or on 2, not on {sides:g}.")
    most_deg = MOST_ANGLE_DEG / 2.0 if sides == 1 else MOST_ANGLE_DEG
    if not LEAST_ANGLE_DEG <= angle_deg <= most_deg:
        raise OutOfRange(
            f"An edge ground on {sides} side{'s' if sides == 2 else ''} has an angle from "
            f"{LEAST_ANGLE_DEG:g}° to {most_deg:g}°, not {angle_deg:g}°."
        )
    radians = math.radians(angle_deg)
    return math.tan(radians) if sides == 1 else 2.0 * math.tan(radians / 2.0)


def _check_thins(thickness_mm: float, edge_mm: float) -> None:
    check_size(thickness_mm, "thickness behind the edge")
    check_size(edge_mm, "thickness of the edge", may_be_nothing=True)
    if not edge_mm < thickness_mm:
        raise OutOfRange(
            "An edge of {} is not thinner than the {} behind it; give the thickness of the edge itself "
            "first.",
            mm(edge_mm),
            mm(thickness_mm),
        )


#: Each with its source in edge.csv (from memory).
EDGE_ANGLES: Final = tuple(
    UsualAngle(tool, degrees(float(low)), degrees(float(high)) if high else None, source)
    for tool, low, high, source in (
        line.split(",", 3)
        for line in Path(__file__).with_suffix(".csv").read_text(encoding="utf-8").splitlines()[1:]
    )
)
