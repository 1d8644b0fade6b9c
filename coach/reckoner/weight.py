"""What a bar weighs by its section and length, and how long a bar of some mass is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.metals.grade_file import Grade
from coach.quantities import Figure, Kind, grams, mm, say
from coach.reckoner.asking.reading import NotReckoned, TypedBar
from coach.reckoner.asking.takes import bar, mass, metal, size
from coach.reckoner.asking.told import Told

SUMMARY = "Tell what a length of bar weighs, or how long a weight of it is."
SOURCES = (
    "Source: elementary geometry and the density of the grade, 7.85 g/cm³ for steel as in EN 10058, 10059 "
    "and 10060 (from memory); rolled bars differ by a few per cent, wrought iron by its slag."
)
TAKES = (
    bar(),
    size("length", "how long it is: 1000 or 3ft", metavar="LENGTH"),
    mass("--mass", "the other way: how long a bar of this mass is: 1.4kg"),
    metal(),
)


#: The most that is reckoned: as much as can be typed as a mass or a length (our choice).
HEAVIEST_G: Final = 1_000_000.0
LONGEST_MM: Final = 100_000.0
#: Less than this is no length of a bar (our choice).
SHORTEST_MM: Final = 0.1


class Weight(NamedTuple):
    """A bar's mass; length and mass are None when only the mass of each metre was asked for."""

    section: TypedBar
    metal: str  # the grade
    density: Figure
    of_a_length: Figure  # the mass of each metre
    length: Figure | None  # how long it is
    mass: Figure | None  # what it weighs
    by_mass: bool  # whether the mass was given, to be told the length
    source: str  # where the density is from, and how far that is confirmed


def reckon(section: TypedBar, metal: Grade, length: float | None = None, mass: float | None = None) -> Weight:
    """The mass of a length of bar in mm, or the length of a mass in g: m = ρ A L, cold.

    A in mm², L in mm, ρ the grade's density. The nominal masses of EN 10058, 10059 and 10060 follow with
    7.85 g/cm³ (from memory). Raises NotReckoned when both length and mass are given.

    >>> from coach.metals.grade import grade
    >>> reckon(TypedBar("square", (25.0,)), grade("mild steel"), length=1000).mass.value
    4906.25
    """
    if length is not None and mass is not None:
        raise NotReckoned("A length and a mass were both given: give one, and the other is reckoned.")
    by_mass = mass is not None
    per_mm_g = metal.density_kg_m3 * 1e-6 * section.area_mm2
    if mass is not None:
        length = mass / per_mm_g
        if length < SHORTEST_MM:
            raise NotReckoned(
                "{} of {} is less than {} of it: give the mass again.",
                *(grams(mass), section.words, mm(SHORTEST_MM)),
            )
    elif length is not None:
        mass = length * per_mm_g
    if mass is not None and length is not None and (mass > HEAVIEST_G or length > LONGEST_MM):
        raise NotReckoned(
            "{} of {} weigh {}; no more than {} or {} is reckoned: give the {} again.",
            *(mm(length), section.words, grams(mass), mm(LONGEST_MM), grams(HEAVIEST_G)),
            "mass" if by_mass else "length",
        )
    return Weight(
        section,
        metal.name,
        Figure(metal.density_kg_m3 / 1000.0, Kind.DENSITY),
        Figure(per_mm_g * 1000.0, Kind.LINEAR_MASS),
        None if length is None else mm(length),
        None if mass is None else grams(mass),
        by_mass,
        metal.sources.get("density_kg_m3", ""),
    )


def told(answer: Weight) -> Iterator[Told]:
    """The mass, or the length."""
    bar = say("{} of {}", answer.section.words, answer.metal)
    if answer.length is None or answer.mass is None:
        yield say("{}: {}", bar, answer.of_a_length)
    elif answer.by_mass:
        yield say("{} of {} is {} long, at {}", answer.mass, bar, answer.length, answer.of_a_length)
    else:
        yield say("{:=} of {} weighs {}, at {}", answer.length, bar, answer.mass, answer.of_a_length)
