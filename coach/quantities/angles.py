"""Angles as a smith types them, in degrees."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.measures import Measure, spelt

ANGLE: Final = Measure(
    name="an angle",
    base="deg",
    words=spelt(deg="° degs degree degrees"),
    offered="° or deg",
    example="45° or 22.5 deg",
    least=Fraction(0),
    most=Fraction(360),
    bounds="more than 0° and at most 360°",
)


def read_angle_deg(text: str) -> float:
    """Return the angle written in `text`, in degrees, more than 0 and at most 360.

    Raises SizeError with one sentence for anything that is not such an angle.

    >>> read_angle_deg("22 1/2°")
    22.5
    """
    return float(ANGLE.read(text, "deg"))
