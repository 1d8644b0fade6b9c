"""Shares of a whole as a smith types them, in per cent."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.measures import Measure

SHARE: Final = Measure(
    name="a share",
    base="%",
    words=dict.fromkeys(("%", "percent"), "%"),
    offered="%",
    example="3 %, with the % sign",
    least=Fraction(0),
    most=Fraction(100),
    bounds="from 0 % to 100 %",
    least_allowed=True,
)


def read_share(text: str) -> float:
    """Return the share written in `text`, from 0 to 1: `3 %` is 0.03.

    A bare number is refused, for 0.03 can mean three in a hundred or three in ten thousand.
    Raises SizeError with one sentence for anything that is not a share.

    >>> read_share("3 %")
    0.03
    """
    return float(SHARE.read(text, None) / 100)
