"""The sections that bars are rolled in, to choose one for a tool that is to be made larger or smaller."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import chain
from typing import Final

from coach.quantities.units import System

#: By definition.
_MM_IN_AN_INCH: Final = 25.4
#: A bar may be this share below what is asked for: nobody forges nearer (judgement).
_BELOW_SHARE: Final = 0.02

#: EN 10059, squares, and EN 10060, rounds: what merchants stock of them, in mm (from memory).
_ROUND_MM: Final = (
    *(4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 25, 26, 28, 30, 32, 35, 36, 38, 40, 42, 45, 48, 50),
    *(55, 60, 65, 70, 75, 80, 90, 100, 110, 120),
)
_SQUARE_MM: Final = (
    *(4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 25, 28, 30, 32, 35, 40, 45, 50, 60, 70, 80, 100),
)
#: EN 10061, hexagons; octagons are taken as they (from memory).
_HEXAGON_MM: Final = (
    *(8, 10, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 24, 25, 27, 28, 30, 32, 36, 41, 46, 50, 55, 60),
)
#: EN 10058, flats, and strip below its thinnest, in mm (from memory).
_WIDE_MM: Final = (10, 12, 15, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 150)
_THICK_MM: Final = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 35, 40, 50, 60, 80)
_METRIC: Final[Mapping[str, Sequence[float]]] = {
    "diameter": _ROUND_MM,
    "side": _SQUARE_MM,
    "across_flats": _HEXAGON_MM,
    "width": _WIDE_MM,
    "thickness": _THICK_MM,
}
#: In inches by sixteenths to 3/4, by eighths to 2 and by quarters beyond, whatever the section (from memory).
_INCH: Final = tuple(
    number * _MM_IN_AN_INCH
    for number in chain(
        (n / 16 for n in range(1, 12)), (n / 8 for n in range(6, 16)), (n / 4 for n in range(8, 25))
    )
)


def next_rolled_mm(dimension: str, size_mm: float, unit: System) -> float:
    """The next size that a bar is rolled in, mm; what is larger than any of them stays as it is.

    >>> next_rolled_mm("width", 48.0, "mm"), next_rolled_mm("side", 12.0, "in")
    (50, 12.7)
    """
    sizes = _INCH if unit == "in" else _METRIC.get(dimension, ())
    return next((one for one in sizes if one >= size_mm * (1.0 - _BELOW_SHARE)), size_mm)
