"""What the questions take alike: bars, grades, sizes, masses and heats."""

from __future__ import annotations

from typing import Final

from coach.metals.grade import grade
from coach.quantities import read_length_mm, read_mass_g
from coach.quantities.takes import Take, Typed, plain
from coach.reckoner.asking.reading import (
    bars,
    how_bars_are_typed,
    read_bar,
    read_heat,
    read_size_or_nothing_mm,
    read_target,
)

USUAL_METAL: Final = "mild steel"
HEAT: Final = "a temperature (950, 1750F) or a heat colour (orange)"


def bar() -> Take:
    """The section of a bar, into a TypedBar."""
    told = f"a bar: {how_bars_are_typed()}"
    return Take("section", told, "SECTION", read_bar, needed=True, joins=tuple(bars()))


def target(help_: str) -> Take:
    """What a bar is forged to, into a Target."""
    return Take("--to", help_, "THICKNESS_OR_SECTION", read_target, needed=True, joins=tuple(bars()))


def metal() -> Take:
    """What it is made of, into a Grade."""
    told = f"an iron or steel; without it, {USUAL_METAL}"
    return Take("--metal", told, "GRADE", plain(grade), usual=USUAL_METAL)


def grade_named(help_: str, typed: Typed = Typed.ONE, *, needed: bool = True) -> Take:
    """The grade that is asked about, into a Grade."""
    return Take("grade", help_, "GRADE", plain(grade), typed, needed)


def size(
    name: str,
    help_: str,
    *,
    metavar: str = "SIZE",
    needed: bool = False,
    usual: str = "",
    may_be_nothing: bool = False,
) -> Take:
    """A length, into mm."""
    read = read_size_or_nothing_mm if may_be_nothing else read_length_mm
    return Take(name, help_, metavar, read, needed=needed, usual=usual)


def mass(name: str, help_: str) -> Take:
    """A mass, into grams."""
    return Take(name, help_, "MASS", lambda text, system: read_mass_g(text, "lb" if system == "in" else "g"))


def heat(name: str, before: str = "", after: str = "", *, needed: bool = False, usual: str = "") -> Take:
    """A temperature or a heat colour, into a TypedHeat."""
    told = f"{before}{HEAT}{after}"
    return Take(name, told, "T", plain(read_heat), needed=needed, usual=usual)
