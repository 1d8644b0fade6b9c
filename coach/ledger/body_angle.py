"""The angle that a body itself makes at its edge, before any bevel is ground on it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple


class BodyAngle(NamedTuple):
    """How the two faces behind an edge stand to each other."""

    degrees: float  # between them; 0 where they are parallel
    flat: bool  # whether one of them runs along the tool


def body_angle(sizes_mm: Mapping[str, float], options: Mapping[str, str]) -> BodyAngle:
    """By a solid's sizes, mm, and its options: a taper thins towards its end, a side bevel over its reach.

    On a form without a thickness that thins, and on one that thickens, the faces count as parallel.
    Elementary geometry.

    >>> round(body_angle({"thickness": 36, "end_thickness": 3, "length": 50}, {}).degrees, 1)
    36.5
    >>> round(body_angle({"thickness": 4, "edge": 1, "reach": 20}, {"sides": "one"}).degrees, 1)
    8.5
    """
    thick_mm = sizes_mm.get("thickness", 0.0)
    thin_mm = sizes_mm.get("edge", sizes_mm.get("end_thickness", thick_mm))
    back_mm = sizes_mm.get("reach" if "edge" in sizes_mm else "length", 0.0)
    one = "edge" in sizes_mm and options.get("sides") == "one"
    sides = 1 if one else 2
    if thin_mm >= thick_mm or back_mm <= 0.0:
        return BodyAngle(0.0, one)
    return BodyAngle(sides * math.degrees(math.atan((thick_mm - thin_mm) / sides / back_mm)), one)
