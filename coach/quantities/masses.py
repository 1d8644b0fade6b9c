"""Masses as a smith reads them off the scales, in grams."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from coach.quantities.measures import Measure, spelt

MASS: Final = Measure(
    name="a mass",
    base="g",
    words=spelt(
        g="gram grams gramme grammes",
        kg="kilo kilos kilogram kilograms kilogramme kilogrammes",
        oz="ounce ounces",
        lb="lbs pound pounds",
    ),
    offered="g, kg, oz or lb",
    example="415 g or 1 lb 4 oz",
    least=Fraction(0),
    most=Fraction(1_000_000),
    bounds="more than 0 and at most 1000 kg",
    joins=frozenset({("lb", "oz"), ("kg", "g")}),
)


def read_mass_g(text: str, unit: str = "g") -> float:
    """Return the mass written in `text`, in grams, more than 0 and at most 1000 kg.

    `unit` is that of a bare number: g, kg, oz or lb. Ounces and pounds are avoirdupois.
    Raises SizeError with one sentence for anything that is not a mass.

    >>> read_mass_g("1.2 kg")
    1200.0
    """
    return float(MASS.read(text, unit))
