"""A section that is not as true as one size says: both sides of a square, its diagonals, a round both ways.

What is typed stands for the true section of the same area, for the account is one of metal: of a square whose
sides lie a and b apart, √(a·b); of one gone to a diamond with diagonals p and q, √(p·q/2), for p·q/2 is its
area; of a round that is a across and b the other way, √(a·b) (elementary geometry); so of a hexagon or an
octagon across two pairs of its flats (judgement: the third pair is not told).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from math import atan, degrees, sqrt
from typing import Final, NamedTuple

from coach.forms import said
from coach.operations.measures import DIAGONALS
from coach.quantities.amounts import read_length_mm
from coach.quantities.errors import SizeError, briefly
from coach.quantities.figure import Figure, Kind, mm
from coach.quantities.units import System
from coach.quantities.words import NOTHING, Words, say

#: The sizes that are the same both ways where a section is true.
PAIRED: Final = ("side", "diameter", "across_flats")
#: The sides of a flat, of which neither is told by its diagonals alone.
_OF_A_FLAT: Final = ("width", "thickness", "end_width", "end_thickness")
_WORD: Final = r"(?:d|diag|diagonals?|corners?)"
_PAIR: Final = re.compile(
    rf"(?P<before>{_WORD}\s)?\s*(?P<one>[^x×]+?)\s*[x×]\s*(?P<other>[^x×]+?)(?P<behind>\s*{_WORD})?",
    re.IGNORECASE,
)
#: Nothing is said of less, for a gauge on a forged face tells no more (judgement).
_LEAST_DEG, _LEAST_MM, _LEAST_SHARE = 2.0, 0.2, 0.02
#: What differs by more is a slip, and no section that is still to be trued (our choice).
_MOST_TIMES = 2.0


class BothWays(NamedTuple):
    """A section as it was read both ways, the greater first."""

    greater_mm: float
    less_mm: float
    by_corners: bool  # its diagonals, and not its sides

    @property
    def true_mm(self) -> float:
        """The side, or the diameter, of the true section of the same area.

        >>> round(BothWays(15.0, 13.333, True).true_mm, 2), BothWays(9.0, 4.0, False).true_mm
        (10.0, 6.0)
        """
        product = self.greater_mm * self.less_mm
        return sqrt(product / 2.0 if self.by_corners else product)

    @property
    def out_deg(self) -> float:
        """How far the corners of a diamond are from a right angle: 90° - 2·atan(q/p)."""
        return 90.0 - 2.0 * degrees(atan(self.less_mm / self.greater_mm))


def read_both_ways(dimension: str, typed: str, system: System) -> BothWays | None:
    """What was typed, such as `8.4 x 7.9` or, by its diagonals, `12.5 x 10 diag`; None for one size alone.

    Raises SizeError where one of the two cannot be read, or they are too far apart.

    >>> read_both_ways("side", "7.9 x 8.4", "mm")
    BothWays(greater_mm=8.4, less_mm=7.9, by_corners=False)
    """
    found = _PAIR.fullmatch(typed.strip())
    if found is None:
        return None
    if dimension not in (*PAIRED, DIAGONALS):
        _refuse_two_sizes(dimension, typed.strip(), (found["one"], found["other"]), system)
        return None
    by_corners = bool(found["before"] or found["behind"]) or dimension == DIAGONALS
    if by_corners and dimension not in ("side", DIAGONALS):
        raise SizeError(
            "A round has no corners: type it both ways, such as 20.4 x 19.8."
            if dimension == "diameter"
            else "By its corners only a square is read: type it both ways, such as 20.4 x 19.8."
        )
    less_mm, greater_mm = sorted(read_length_mm(found[one], system) for one in ("one", "other"))
    if greater_mm > _MOST_TIMES * less_mm:
        said = f"{typed.strip()[:30]!r} is no section that is to be true"
        raise SizeError(f"{said}: measure it again both ways.")
    return BothWays(greater_mm, less_mm, by_corners)


def size_by_two_mm(dimension: str, typed: str, system: System) -> float | None:
    """What two sizes come to; None for one alone. Raises SizeError as `read_both_ways` does."""
    both = read_both_ways(dimension, typed, system)
    if both is None:
        return None
    return both.greater_mm - both.less_mm if dimension == DIAGONALS else both.true_mm


def by_corners(dimension: str, typed: str, known: Callable[[], Collection[str]]) -> str:
    """The size that is read: how the diagonals differ where two were typed for one side of a flat.

    `known` tells what can be read there.

    >>> flat = lambda: ["width", "thickness", DIAGONALS]
    >>> by_corners("width", "42.5 x 45.2 diag", flat), by_corners("width", "40", flat)
    ('diagonals_differ', 'width')
    """
    found = _PAIR.fullmatch(typed.strip()) if dimension in _OF_A_FLAT else None
    if found is None or not (found["before"] or found["behind"]):
        return dimension
    return DIAGONALS if DIAGONALS in known() else dimension


def _refuse_two_sizes(dimension: str, typed: str, two: tuple[str, str], system: System) -> None:
    """Raises SizeError where two lengths were typed for one size; else the reader says what is wrong."""
    try:
        for one in two:
            read_length_mm(one, system)
    except SizeError:
        return
    raise SizeError(f"{briefly(typed)} is two sizes, and the {said(dimension)} is one: type it alone.")


def out_of_true(dimension: str, typed: str, system: System) -> Words:
    """How far a section that was read both ways is out of true, and what trues it; nothing where it is."""
    try:
        read = read_both_ways(dimension, typed, system)
    except SizeError:
        return NOTHING
    if read is None or dimension == DIAGONALS:
        return NOTHING
    true_mm = read.true_mm
    counts = say("it counts as {:=} all round, which is as much metal", mm(round(true_mm, 2)))
    if read.by_corners:
        if read.out_deg < _LEAST_DEG:
            return NOTHING
        inwards = mm((read.greater_mm - true_mm * sqrt(2.0)) / 2.0)
        told = "out of square by {}: stand it on its long corners and set each in by {}; {}"
        return say(told, Figure(float(round(read.out_deg)), Kind.ANGLE), inwards, counts)
    apart_mm = read.greater_mm - read.less_mm
    if apart_mm < max(_LEAST_MM, _LEAST_SHARE * true_mm):
        return NOTHING
    told = "{:=} out of true: set the {:=} way down by {}, turning it; {}"
    return say(told, mm(round(apart_mm, 2)), mm(read.greater_mm), mm(read.greater_mm - true_mm), counts)
