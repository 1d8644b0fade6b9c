"""What the colour of the oxide film on bright steel says about the heat it was tempered at.

The film grows with time as well as with heat: steel held longer shows the same colour at a lower
temperature. The tables are meant for plain carbon steel, bright and clean, whose colours run in a few
minutes; after an hour in an oven the colour says nothing of the kind, and the oven's figure counts.
"""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path
from typing import Final

from coach.fire.colours import ColourTables, tables_in
from coach.fire.glow import check_glow
from coach.fire.srgb import Rgb, linear_from_rgb, rgb_from_linear
from coach.quantities.between import between

#: No temper colour is trusted better than plus or minus this, in °C. Judgement: of the five sources
#: of the default table none is further from their mean than 15.6 °C (dark straw, 450 °F and 478 °F).
TEMPER_DOUBT_C: Final = 16.0


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
    temperature_f = min(max(whole_c * 1.8 + 32.0, _FILM[0][0][0]), _FILM[0][-1][0])
    red, green, blue = (between(channel, temperature_f) for channel in _FILM)
    return rgb_from_linear((red, green, blue))


def _film() -> tuple[tuple[tuple[float, float], ...], ...]:
    """Red, green and blue light by temperature in °F: how the film looks in daylight (judgement)."""
    lines = Path(__file__).with_name("film.csv").read_text(encoding="utf-8").splitlines()
    rows = [line.split(",") for line in lines[1:]]
    lights = [linear_from_rgb((int(red), int(green), int(blue))) for _, red, green, blue, _ in rows]
    at_f = [float(row[0]) for row in rows]
    return tuple(tuple(zip(at_f, channel, strict=True)) for channel in zip(*lights, strict=True))


_FILM: Final = _film()


def _mean_c(figures_f: list[float]) -> float:
    """Of one figure in °F, both ends of a range or several sources."""
    return (math.fsum(figures_f) / len(figures_f) - 32.0) / 1.8


TEMPER_COLOURS: Final = ColourTables(
    "temper colour", tables_in("temper-colours.toml", _mean_c), TEMPER_DOUBT_C
)
