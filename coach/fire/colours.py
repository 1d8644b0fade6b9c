"""What the colour of glowing steel says about its temperature.

Colour words are subjective: they depend on the light of the shop and on the eye, and the published tables
differ by as much as 150 °C on the word cherry. So a colour is told with its temperature and its table, and
it never replaces a magnet or a pyrometer.
"""

from __future__ import annotations

from typing import Final

from coach.fire.naming import ColourTables, tables_in

#: No colour word is trusted better than plus or minus this, in °C. Shop judgement.
COLOUR_DOUBT_C: Final = 40.0
#: A pyrometer's figure is better than a colour, in °C (common practice, no source).
FIGURE_DOUBT_C: Final = 15.0


def colour_temperature_c(name: str) -> float:
    """The temperature in °C that a heat colour stands for, good to COLOUR_DOUBT_C at best; raises NotKnown.

    >>> colour_temperature_c("Light-Orange")
    941.0
    """
    return HEAT_COLOURS.temperature_c(name)


def colour_name(temperature_c: float) -> str:
    """The name of the heat colour nearest to a temperature in °C.

    >>> colour_name(900)
    'orange'
    """
    return HEAT_COLOURS.name_of(temperature_c)


HEAT_COLOURS: Final = ColourTables(
    "heat colour", tables_in("heat-colours.toml", lambda figures: float(figures[0]))
)
