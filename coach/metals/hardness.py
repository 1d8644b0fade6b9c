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

    hrc: float
    hv: float
    hb: float | None
    tensile_mpa: float | None


def hrc_of_hv(hv: float) -> float:
    """Rockwell C of a Vickers hardness from 238 to 832 HV; raises OutOfRange.

    Source: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory).

    >>> round(hrc_of_hv(650), 2)
    57.85
    """
    return _between(hv, _column("hv"), _column("hrc"))


def hv_of_hrc(hrc: float) -> float:
    """Vickers hardness of a Rockwell C figure from 20 to 65 HRC; raises OutOfRange.

    Source: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory).

    >>> hv_of_hrc(60)
    697.0
    """
    return _between(hrc, _column("hrc"), _column("hv"))


def hrc_of_hb(hb: float) -> float:
    """Rockwell C of a Brinell hardness from 226 to 654 HB, 10 mm carbide ball and 3000 kgf.

    Raises OutOfRange. Source: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory).

    >>> hrc_of_hb(481)
    50.0
    """
    return _between(hb, _column("hb"), _column("hrc"))


def hb_of_hv(hv: float) -> float:
    """Brinell hardness, 10 mm carbide ball and 3000 kgf, of 238 to 697 HV; raises OutOfRange.

    Source: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory).

    >>> hb_of_hv(513)
    481.0
    """
    return _between(hv, _column("hv"), _column("hb"))


def tensile_mpa_of_hv(hv: float) -> float:
    """Tensile strength, in MPa, of unalloyed or low-alloy steel of 200 to 650 HV; raises OutOfRange.

    ISO 18265 calls its tensile strengths the least reliable values that it gives (confirmed): they are for
    an idea of the strength, never for proof of it. Source: ISO 18265 Table A.1 (from memory).

    >>> tensile_mpa_of_hv(300)
    965.0
    """
    return _between(hv, _column("tensile_hv"), _column("tensile"))


def converted(hrc: float) -> Hardness:
    """A hardness of 20 to 65 HRC on all scales; what has no place in a table is None. Raises OutOfRange.

    >>> converted(50)
    Hardness(hrc=50.0, hv=513.0, hb=481.0, tensile_mpa=1676.8)
    """
    hv = hv_of_hrc(hrc)
    return Hardness(
        float(hrc),
        hv,
        hb_of_hv(hv) if hv <= _column("hv").figures[len(_column("hb").figures) - 1] else None,
        tensile_mpa_of_hv(hv) if hv <= _column("tensile_hv").figures[-1] else None,
    )


def read_hardness(text: str) -> float:
    """The hardness written in `text`, in HRC; a bare number is in HRC, and the scale may stand first.

    Reads 20 to 70 HRC, 238 to 832 HV and 226 to 654 HB. Raises SizeError for anything else.

    >>> read_hardness("56,5 HRC")
    56.5
    >>> read_hardness("HV 653")
    58.0
    """
    number, scale = _parted(text)
    if scale in ("hv", "hb"):
        try:
            return hrc_of_hv(number) if scale == "hv" else hrc_of_hb(number)
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


def _between(value: float, given: _Column, sought: _Column) -> float:
    """Straight between the rows that both columns have."""
    rows = tuple(zip(given.figures, sought.figures, strict=False))
    low, high = rows[0][0], rows[-1][0]
    # Written so that a value which is not a number is refused too.
    if not low <= value <= high:
        why = _BALL if _column("hb") in (given, sought) else ""
        raise OutOfRange(
            f"The table for {sought.name} holds from {low:g} to {high:g} {given.unit}{why}, not at {value:g} "
            f"{given.unit}; give a hardness within it."
        )
    return between(rows, value)


@cache
def _column(key: str) -> _Column:
    with Path(__file__).with_suffix(".toml").open("rb") as file:
        told = tomllib.load(file)[key]
    return _Column(told["name"], told["unit"], tuple(told["figures"]))
