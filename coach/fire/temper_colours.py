"""What the colour of the oxide film on bright steel says about the heat it was tempered at.

The film grows with time as well as with heat: steel held longer shows the same colour at a lower
temperature. The tables are meant for plain carbon steel, bright and clean, whose colours run in a few
minutes; after an hour in an oven the colour says nothing of the kind, and the oven's figure counts.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from functools import lru_cache
from typing import Final

from coach.fire.glow import check_glow
from coach.fire.naming import ColourTables, tables_in
from coach.fire.srgb import Linear, Rgb, linear_from_rgb, rgb_from_linear

#: No temper colour is trusted better than plus or minus this, in °C. Judgement: of the five sources
#: of the default table none is further from their mean than 15.6 °C (dark straw, 450 °F and 478 °F).
TEMPER_DOUBT_C: Final = 16.0


def temper_temperature_c(name: str) -> float:
    """The temperature in °C that a temper colour stands for, good to TEMPER_DOUBT_C at best.

    It holds for colours that run in a few minutes. Raises NotKnown.

    >>> round(temper_temperature_c("dark straw"), 1)
    247.8
    """
    return TEMPER_COLOURS.temperature_c(name)


def temper_name(temperature_c: float) -> str:
    """The name of the temper colour nearest to a temperature in °C that is reached in a few minutes.

    "past the colours" more than TEMPER_DOUBT_C above the last, where the film turns grey.

    >>> temper_name(290)
    'bluish purple'
    """
    return TEMPER_COLOURS.name_of(temperature_c)


def temper_rgb(temperature_c: float) -> Rgb:
    """The colour of a swatch for a temperature in °C.

    The films are interference colours, which no paint matches; these are how they look on a bright surface
    in daylight (judgement), and between them the light is mixed in straight lines. Bare steel is shown below
    400 °F (204 °C), a grey film above 700 °F (371 °C). To the nearest whole °C; raises OutOfRange outside
    -20 to 1600 °C.

    >>> temper_rgb(237), temper_rgb(300)
    ((223, 186, 97), (48, 62, 150))
    """
    check_glow(temperature_c)
    return _swatch(round(temperature_c))


@lru_cache(maxsize=512)
def _swatch(whole_c: int) -> Rgb:
    temperature_f = whole_c * 1.8 + 32.0
    if temperature_f <= _SWATCHES[0][0]:
        return _SWATCHES[0][1]
    if temperature_f >= _SWATCHES[-1][0]:
        return _SWATCHES[-1][1]
    row = bisect_right([at_f for at_f, _ in _SWATCHES], temperature_f)
    (below_f, below), (above_f, above) = _SWATCHES[row - 1 : row + 1]
    share = (temperature_f - below_f) / (above_f - below_f)
    return rgb_from_linear(_mixed(linear_from_rgb(below), linear_from_rgb(above), share))


def _mixed(one: Linear, other: Linear, share: float) -> Linear:
    red, green, blue = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return (red, green, blue)


#: What the film looks like at a temperature in °F on a bright surface in daylight (judgement).
_SWATCHES: Final[tuple[tuple[float, Rgb], ...]] = (
    (400.0, (200, 200, 198)),  # bare steel
    (430.0, (236, 222, 160)),  # very pale yellow
    (460.0, (222, 184, 92)),  # straw
    (480.0, (200, 150, 62)),  # dark straw
    (500.0, (168, 110, 50)),  # brown
    (520.0, (140, 72, 72)),  # brown with purple
    (530.0, (132, 64, 110)),  # light purple
    (540.0, (112, 52, 128)),  # full purple
    (550.0, (82, 46, 130)),  # dark purple
    (572.0, (48, 62, 150)),  # blue
    (600.0, (78, 104, 156)),  # grey-blue
    (627.5, (98, 146, 152)),  # greenish blue
    (640.0, (116, 154, 162)),
    (700.0, (128, 134, 136)),  # grey
)


def _mean_c(figures_f: list[float]) -> float:
    """Of one figure in °F, both ends of a range or several sources."""
    return (math.fsum(figures_f) / len(figures_f) - 32.0) / 1.8


TEMPER_COLOURS: Final = ColourTables(
    "temper colour", tables_in("temper-colours.toml", _mean_c), TEMPER_DOUBT_C
)
