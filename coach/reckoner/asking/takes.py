"""What may follow the name of a question: each way of typing, with how it is read and what the help says."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from keyword import iskeyword
from typing import Final, NamedTuple, TypeAlias

from coach.metals.grade import Grade, grade
from coach.quantities import read_length_mm, read_mass_g
from coach.quantities.units import System
from coach.reckoner.asking.reading import (
    bars,
    how_bars_are_typed,
    read_bar,
    read_heat,
    read_target,
)

Read: TypeAlias = Callable[[str, System], object]
"""Makes a value of what was typed; a bare number is in the units of the system."""

USUAL_METAL: Final = "mild steel"
HEAT: Final = "a temperature (950, 1750F) or a heat colour (orange)"


class Typed(Enum):
    """How many words are typed for it."""

    ONE = "one word"
    RUN_ON = "as many words as there are, read as one"
    SEVERAL = "each word is read alone, into a tuple"
    FLAG = "the option alone"


class Take(NamedTuple):
    """One thing that may follow a question's name."""

    name: str  # `section`, or of an option `--from`
    read: Read
    help: str
    metavar: str = ""
    typed: Typed = Typed.ONE
    needed: bool = False
    usual: str = ""  # what is read where it is left out; without it, that is None
    alone: str | None = None  # of an option: what is read where nothing follows it
    joins: tuple[str, ...] = ()  # words that only make sense with the one after them

    @property
    def key(self) -> str:
        """What `reckon` takes it by."""
        name = self.name.lstrip("-").replace("-", "_")
        return f"{name}_" if iskeyword(name) else name


def bar() -> Take:
    """The section of a bar, into a TypedBar."""
    told = f"a bar: {how_bars_are_typed()}"
    return Take("section", read_bar, told, "SECTION", needed=True, joins=tuple(bars()))


def target(help_: str) -> Take:
    """What a bar is forged to, into a Target."""
    return Take("--to", read_target, help_, "THICKNESS_OR_SECTION", needed=True, joins=tuple(bars()))


def metal() -> Take:
    """What it is made of, into a Grade."""
    told = f"an iron or steel; without it, {USUAL_METAL}"
    return Take("--metal", _grade, told, "GRADE", usual=USUAL_METAL)


def grade_named(help_: str, typed: Typed = Typed.ONE, *, needed: bool = True) -> Take:
    """The grade that is asked about, into a Grade."""
    return Take("grade", _grade, help_, "GRADE", typed, needed)


def size(
    name: str,
    help_: str,
    *,
    metavar: str = "SIZE",
    needed: bool = False,
    usual: str = "",
    read: Read = read_length_mm,
) -> Take:
    """A length, into mm."""
    return Take(name, read, help_, metavar, needed=needed, usual=usual)


def mass(name: str, help_: str) -> Take:
    """A mass, into grams."""
    return Take(name, lambda text, system: read_mass_g(text, "lb" if system == "in" else "g"), help_, "MASS")


def heat(name: str, before: str = "", after: str = "", *, needed: bool = False, usual: str = "") -> Take:
    """A temperature or a heat colour, into a TypedHeat."""
    told = f"{before}{HEAT}{after}"
    return Take(name, lambda text, _: read_heat(text), told, "T", needed=needed, usual=usual)


def flag(name: str, help_: str) -> Take:
    """An option that is given or not, into True or False."""
    return Take(name, lambda text, _: bool(text), help_, typed=Typed.FLAG)


def plain(read: Callable[[str], object]) -> Read:
    """A reader that units make no difference to."""
    return lambda text, _: read(text)


def _grade(text: str, _: System) -> Grade:
    return grade(text)
