"""A bar that is there, as a smith says it: its section as measured, its length or its weight, its grade."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Final, NamedTuple

from coach.metals.grade import grade
from coach.quantities.amounts import read_length_mm, read_mass_g
from coach.quantities.errors import SizeError
from coach.quantities.refusal import Refusal
from coach.quantities.units import System
from coach.reckoner.asking.reading import TypedBar, read_bar

_PARTS: Final = re.compile(r";\s*|,\s+|,(?=\s*[^\W\d])|\s+(?=long\s)")
_LONG: Final = re.compile(r"long\s+(?P<length>.+)", re.IGNORECASE)
_WEIGHT: Final = re.compile(
    r"[\d.,/ ]*\d\s*(?:k?g|grams?|grammes?|kilos?|ozs?|ounces?|lbs?|pounds?)\.?", re.I
)


class BarThere(NamedTuple):
    """What was said of a bar."""

    section: str  # what is said of its section, as typed
    length_mm: float | None  # as told, or as its weight makes it
    mass_g: float | None  # where its weight was told
    metal: str  # its grade; "" where none was told


def read_bar_there(text: str, system: System, usual_metal: str = "") -> BarThere:
    """The bar that a text tells of; of one that is told by weight the section is that of its middle.

    A bare number is in the units of the system. `usual_metal` is that of a bar whose grade is not told.
    Raises a Refusal where a length or a weight cannot be read, or both are told.

    >>> read_bar_there("45 x 20, long 310, mild steel", "mm")
    BarThere(section='45 x 20', length_mm=310.0, mass_g=None, metal='mild steel')
    >>> round(read_bar_there("square 20, 314 g, mild steel", "mm").length_mm)  # 314 / (7.85e-3 x 400)
    100
    """
    section: list[str] = []
    length_mm: float | None = None
    mass_g: float | None = None
    metal = ""
    for part in filter(None, map(str.strip, _PARTS.split(text.strip()))):
        if found := _LONG.fullmatch(part):
            length_mm = read_length_mm(found["length"], system)
        elif _WEIGHT.fullmatch(part):
            mass_g = read_mass_g(part)
        elif not _is_bar(part, system) and (named := _grade(part)):
            metal = named
        else:
            section.append(part)
    if length_mm is not None and mass_g is not None:
        raise SizeError("A length and a weight were both told: leave one out, the other is reckoned.")
    if mass_g is not None:
        bar = read_bar(", ".join(section), system)
        length_mm = mass_g / (grade(metal or usual_metal).density_kg_m3 * 1e-6 * bar.area_mm2)
    return BarThere(", ".join(section), length_mm, mass_g, metal)


def section_of(there: BarThere, system: System) -> TypedBar:
    """Its section in mm; raises SizeError where it is that of no bar."""
    return read_bar(there.section, system)


def _is_bar(part: str, system: System) -> bool:
    with suppress(Refusal):
        read_bar(part, system)
        return True
    return False


def _grade(part: str) -> str:
    with suppress(Refusal):
        return grade(part).name
    return ""
