"""How a steel's hardness on one scale reads on another.

ASTM E140 Table 1, non-austenitic steel: Rockwell C, Vickers, and Brinell with a 10 mm tungsten carbide ball
and 3000 kgf. The rows at 55, 50, 45 and 40 HRC, that at 60 HRC for Vickers and that at 35 HRC for Brinell
are confirmed second-hand, the others from memory. Tables made with a steel ball give less Brinell: 613 at
60 HRC instead of 654. Between the rows the way is straight. No conversion is exact: E140 rounds a converted
Rockwell figure to a whole number.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Final, NamedTuple

from coach.quantities.between import between
from coach.quantities.errors import SizeError, briefly
from coach.quantities.figure import Figure, Kind
from coach.quantities.numerals import NUMBER, number_in, refuse_odd_numbers, tidy
from coach.quantities.refusal import OutOfRange

#: ISO 6508-1: the Rockwell C scale itself holds from 20 to 70 (from memory).
HIGHEST_READING_HRC: Final = 70.0


class _Column(NamedTuple):
    """One column of a table of conversions."""

    name: str
    unit: str
    figures: tuple[float, ...]


_BALL: Final = " (Brinell is no fair test above about 650 HB)"
_WANTED: Final = "type a hardness such as 56 HRC, 600 HV or 550 HB"
_BEFORE: Final = re.compile(r"(?P<scale>hrc|rc|hv|hbw?) ?")
_AFTER: Final = re.compile(r" ?(?P<scale>hrc|rc|hv(?: ?(?:5|10|20|30|50|100))?|hbw?(?: ?10/3000)?)")


class Hardness(NamedTuple):
    """One hardness on every scale; None stands where the tables do not reach."""

    rockwell: Figure | None  # Rockwell C
    vickers: Figure
    brinell: Figure | None
    tensile: Figure | None  # the tensile strength


def read_across(value: float, given: str, sought: str) -> float:
    """What a hardness on one scale (`hrc`, `hv`, `hb`) reads on another, or as a tensile strength in MPa.

    Straight between the rows that both have: 20 to 68 HRC, 238 to 940 HV, in Brinell 226 to 654 HB with a
    carbide ball of 10 mm under 3000 kgf; raises OutOfRange elsewhere. `tensile` goes by `tensile_hv`, the
    Vickers figures of its own table, of unalloyed or low-alloy steel of 100 to 650 HV. ISO 18265 calls its
    tensile strengths the least reliable values that it gives (confirmed; edition not seen): they are for an
    idea of the strength, never for proof of it.
    Sources: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory); of the tensile
    strength, ISO 18265 Table A.1 (from memory).

    >>> round(read_across(650, "hv", "hrc"), 2), read_across(60, "hrc", "hv"), read_across(481, "hb", "hrc")
    (57.85, 697.0, 50.0)
    >>> read_across(300, "tensile_hv", "tensile")
    965.0
    """
    one, other = _column(given), _column(sought)
    rows = tuple(zip(one.figures, other.figures, strict=False))
    low, high = rows[0][0], rows[-1][0]
    # Written so that a value which is not a number is refused too.
    if not low <= value <= high:
        why = _BALL if "hb" in (given, sought) else ""
        raise OutOfRange(
            f"The table for {other.name} holds from {low:g} to {high:g} {one.unit}{why}, not at {value:g} "
            f"{one.unit}; give a hardness within it."
        )
    return between(rows, value)


def converted(hrc: float) -> Hardness:
    """A hardness of 20 to 68 HRC on all scales; what has no place in a table is None. Raises OutOfRange.

    >>> converted(50).brinell, converted(62).brinell
    (Figure(value=481.0, kind=<Kind.BRINELL: 'Brinell hardness'>, doubt=None), None)
    """
    hv = read_across(hrc, "hrc", "hv")
    brinell = tensile = None
    if hv <= _column("hv").figures[len(_column("hb").figures) - 1]:
        brinell = Figure(read_across(hv, "hv", "hb"), Kind.BRINELL)
    if hv <= _column("tensile_hv").figures[-1]:
        tensile = Figure(read_across(hv, "tensile_hv", "tensile"), Kind.STRESS)
    return Hardness(Figure(float(hrc), Kind.HARDNESS), Figure(hv, Kind.VICKERS), brinell, tensile)


def on_every_scale(text: str) -> Hardness:
    """The hardness written in `text`, as `read_hardness` reads it, on all scales; raises SizeError.

    Softer than Rockwell C is measured it is told in Vickers and Brinell, from 100 HV or 95 HB on, by
    ISO 18265 Table A.1 (from memory).

    >>> on_every_scale("205 HV").rockwell is None, round(on_every_scale("205 HV").tensile.value)
    (True, 660)
    """
    number, scale = _parted(text)
    soft = {"hv": "soft_hv", "hb": "soft_hb"}.get(scale)
    if soft is None or number >= _column(soft).figures[-1]:
        return converted(read_hardness(text))
    softest = _column(soft).figures[0]
    if number < softest:
        unit = _column(soft).unit
        raise SizeError(
            f"The tables begin at {softest:g} {unit}, and {briefly(text)} is below it; {_WANTED}."
        )
    hv = number if scale == "hv" else read_across(number, "soft_hb", "soft_hv")
    hb = number if scale == "hb" else read_across(number, "soft_hv", "soft_hb")
    tensile = read_across(hv, "tensile_hv", "tensile")
    return Hardness(None, Figure(hv, Kind.VICKERS), Figure(hb, Kind.BRINELL), Figure(tensile, Kind.STRESS))


def read_hardness(text: str) -> float:
    """The hardness written in `text`, in HRC; a bare number is in HRC, and the scale may stand first.

    Reads 20 to 70 HRC, 238 to 940 HV and 226 to 654 HB. Raises SizeError for anything else.

    >>> read_hardness("56,5 HRC")
    56.5
    >>> read_hardness("HV 653")
    58.0
    """
    number, scale = _parted(text)
    if scale in ("hv", "hb"):
        try:
            return read_across(number, scale, "hrc")
        except OutOfRange as wrong:
            raise SizeError(wrong.words) from wrong
    if number > HIGHEST_READING_HRC:
        raise SizeError(
            f"The Rockwell C scale ends at {HIGHEST_READING_HRC:g} HRC, and {briefly(text)} is above it; "
            "type HV after a Vickers figure or HB after a Brinell figure."
        )
    lowest = _column("hrc").figures[0]
    if number < lowest:
        raise SizeError(
            f"Steel softer than {lowest:g} HRC is not measured on the Rockwell C scale, and "
            f"{briefly(text)} is below it; {_WANTED}."
        )
    return number


def _parted(text: str) -> tuple[float, str]:
    tidied = tidy(text, _WANTED)
    refuse_odd_numbers(tidied, text)
    first = _BEFORE.match(tidied)
    found = NUMBER.match(tidied, first.end() if first else 0)
    if found is None:
        raise SizeError(f"{briefly(text)} is not a hardness; {_WANTED}.")
    number = float(number_in(found))
    rest = tidied[found.end() :]
    if not rest:
        return number, (first["scale"] if first else "hrc")[:2]
    last = _AFTER.fullmatch(rest)
    if first or not last:
        raise SizeError(f"{briefly(text)} is not one hardness on a known scale; {_WANTED}.")
    return number, last["scale"][:2]


@cache
def _column(key: str) -> _Column:
    with Path(__file__).with_suffix(".toml").open("rb") as file:
        told = tomllib.load(file)[key]
    return _Column(told["name"], told["unit"], tuple(told["figures"]))
