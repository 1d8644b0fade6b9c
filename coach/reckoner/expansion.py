"""What a size measured on hot steel will be cold, and what a cold size looks like hot."""

from __future__ import annotations

import math
from typing import NamedTuple

from coach.fire.colours import colour_name
from coach.metals.elongation import (
    ELONGATION_DOUBT_SHARE,
    HIGHEST_C,
    LOWEST_C,
    cold_size_mm,
    elongation,
    hot_size_mm,
)
from coach.quantities import Shown, write_as_read, write_temperature
from coach.reckoner.asking import TypedHeat


class ExpansionView(NamedTuple):
    """One size taken both ways: as if it were hot, and as if it were cold."""

    size: float  # the size asked about
    size_text: str
    temperature_c: float  # how hot the metal is
    temperature_doubt: float  # the doubt of that
    temperature_text: str
    colour: str  # what White and Taylor call it
    elongation: float  # a ratio: 0.0138 is 1.38 %
    elongation_doubt: float  # the doubt of that
    cold: float  # what measures `size` hot
    cold_text: str
    hot: float  # what measures `size` cold
    hot_text: str
    doubt: float  # of both
    doubt_text: str


def expansion(size_mm: float, heat: TypedHeat, shown: Shown) -> ExpansionView:
    """The size at 20 °C of what measures `size_mm` hot, and the hot size of what measures that cold.

    The doubt joins that of the temperature, as half the change of the elongation between its two ends, with
    ELONGATION_DOUBT_SHARE of the elongation. Raises OutOfRange outside -20 to 1200 °C.
    Source: EN 1993-1-2:2005 §3.4.1.1, by `coach.metals.elongation`.

    >>> expansion(200, TypedHeat(1000, 15), Shown()).cold_text
    '197.28 mm'
    """
    ratio = elongation(heat.temperature_c)
    ends_c = (heat.temperature_c - heat.doubt_c, heat.temperature_c + heat.doubt_c)
    low, high = (elongation(min(max(end_c, LOWEST_C), HIGHEST_C)) for end_c in ends_c)
    ratio_doubt = math.hypot((high - low) / 2.0, ELONGATION_DOUBT_SHARE * ratio)
    cold_mm, hot_mm = cold_size_mm(size_mm, heat.temperature_c), hot_size_mm(size_mm, heat.temperature_c)
    return ExpansionView(
        size=size_mm,
        size_text=write_as_read(round(size_mm, 2), shown),
        temperature_c=heat.temperature_c,
        temperature_doubt=heat.doubt_c,
        temperature_text=write_temperature(heat.temperature_c, shown),
        colour=colour_name(heat.temperature_c),
        elongation=ratio,
        elongation_doubt=ratio_doubt,
        cold=cold_mm,
        cold_text=_fine(cold_mm, shown),
        hot=hot_mm,
        hot_text=_fine(hot_mm, shown),
        doubt=size_mm * ratio_doubt,
        doubt_text=f"±{_fine(size_mm * ratio_doubt, shown)}",
    )


def _fine(size_mm: float, shown: Shown) -> str:
    """As finely as a calliper reads, as the change itself is small."""
    return write_as_read(round(size_mm, 2), shown) if shown.system == "mm" else f"{size_mm / 25.4:.3f} in"
