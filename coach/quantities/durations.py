"""Durations as a smith types them, in seconds."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.errors import SizeError, briefly
from coach.quantities.measures import Measure, spelt
from coach.quantities.numerals import LONGEST_TEXT

DURATION: Final = Measure(
    name="a duration",
    base="s",
    words=spelt(
        s="sec secs second seconds",
        min="m mins minute minutes",
        h="hr hrs hour hours",
    ),
    offered="s, min or h",
    example="90 s, 3 min or 1 h 30 min",
    least=Fraction(0),
    most=Fraction(3_600_000),
    bounds="more than 0 and at most 1000 h",
    joins=frozenset({("h", "min"), ("min", "s"), ("h", "s")}),
)


def read_duration_s(text: str) -> float:
    """Return the duration written in `text`, in seconds, more than 0 and at most 1000 h.

    A bare number is in minutes. `1:30` is refused: it is minutes on one clock and hours on another.
    Raises SizeError with one sentence for anything that is not a duration.

    >>> read_duration_s("1 h 30 min")
    5400.0
    """
    if ":" in text[:LONGEST_TEXT]:
        raise SizeError(
            f"{briefly(text)} can be read as hours or as minutes; type a duration such as 1 h 30 min or 90 s."
        )
    return float(DURATION.read(text, "min"))
