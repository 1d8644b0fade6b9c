"""What a size measured on hot steel will be cold, and what a cold size measures hot."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from coach.fire.colours import HEAT_COLOURS
from coach.metals.thermal import COLD_SHOP_C, ELONGATION_DOUBT_SHARE, HIGHEST_AUSTENITE_C, elongation
from coach.quantities import Figure, celsius, mm, say, share
from coach.reckoner.asking.reading import TypedHeat
from coach.reckoner.asking.takes import heat, size
from coach.reckoner.asking.told import Told, rows

SUMMARY = "Tell what a size measured hot will be cold, and a cold one hot."
SOURCES = (
    "Source: EN 1993-1-2:2005 §3.4.1.1, the elongation of carbon steel (confirmed second-hand); a tenth of "
    "it is doubted for other steels and for iron (judgement), and the colour by 40 °C."
)
TAKES = (
    size("size", "a length, such as 186 or 7-5/16in", needed=True),
    heat("--at", "how hot the metal is: ", needed=True),
)


class Expansion(NamedTuple):
    """One size taken both ways: as if it were hot, and as if it were cold."""

    size: Figure  # the size asked about
    temperature: Figure  # how hot the metal is
    colour: str  # what White and Taylor call it
    elongation: Figure  # the share by which it is longer than cold
    cold: Figure  # what measures `size` hot, when it is cold
    hot: Figure  # what measures `size` cold, when it is hot


def reckon(size: float, at: TypedHeat) -> Expansion:
    """The size at 20 °C of what measures `size` mm hot, and the hot size of what measures that cold.

    The doubt joins that of the temperature, as half the change of the elongation between its two ends, with
    ELONGATION_DOUBT_SHARE of the elongation. Raises OutOfRange outside -20 to 1394 °C.
    Source: EN 1993-1-2:2005 §3.4.1.1, by `coach.metals.thermal` (confirmed second-hand).

    >>> round(reckon(200, TypedHeat(1000, 15)).cold.value, 2)
    197.28
    """
    ratio = elongation(at.temperature_c)
    ends_c = (at.temperature_c - at.doubt_c, at.temperature_c + at.doubt_c)
    low, high = (elongation(min(max(end_c, COLD_SHOP_C), HIGHEST_AUSTENITE_C)) for end_c in ends_c)
    doubt = math.hypot((high - low) / 2.0, ELONGATION_DOUBT_SHARE * ratio)
    return Expansion(
        mm(size),
        celsius(at.temperature_c, at.doubt_c),
        HEAT_COLOURS.name_of(at.temperature_c),
        share(ratio, doubt),
        mm(size / (1.0 + ratio), size * doubt),
        mm(size * (1.0 + ratio), size * doubt),
    )


def told(answer: Expansion) -> Iterator[Told]:
    """Both ways."""
    longer = "at {}, {}, steel is {} longer than cold"
    yield say(longer, answer.temperature._replace(doubt=None), answer.colour, answer.elongation)
    yield rows(
        (
            (say("measured {:=} hot", answer.size), say("it will be {:±} cold", answer.cold)),
            (say("for {:=} cold", answer.size), say("forge it to {:±} hot", answer.hot)),
        )
    )
