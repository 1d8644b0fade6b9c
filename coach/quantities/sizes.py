"""Lengths as a smith types them, in millimetres."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.measures import Measure, spelt

LENGTH: Final = Measure(
    name="a length",
    base="mm",
    words=spelt(
        mm="millimetre millimetres millimeter millimeters",
        cm="centimetre centimetres centimeter centimeters",
        m="metre metres meter meters",
        ft="' foot feet",
    )
    | dict.fromkeys(("in", '"', "ins", "inch", "inches"), "in"),
    offered="mm, cm, m, in or ft",
    example="31.5 mm or 1 1/4 in",
    least=Fraction(0),
    most=Fraction(100_000),
    bounds="more than 0 and at most 100 m",
    joins=frozenset({("ft", "in"), ("m", "cm"), ("m", "mm"), ("cm", "mm")}),
)


def read_length_mm(text: str, unit: str = "mm") -> float:
    """Return the length written in `text`, in millimetres, more than 0 and at most 100 m.

    `unit` is that of a bare number: mm, cm, m, in or ft. Read are `31.5`, `31,5`, `.5 in`, `3.1 cm`,
    `1 1/4 in`, `1-1/4"`, `5/8 in`, `1½ in`, `1' 2"`, `1 ft 2 in`, with units in either case.
    Nothing is evaluated. Raises SizeError with one sentence for anything else.

    >>> read_length_mm("1 1/4 in")
    31.75
    """
    return float(LENGTH.read(text, unit))
