"""Sizes in a recipe: which reader a dimension takes, and the limits of one that is written bare."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Final, NamedTuple

from coach.operations import operations
from coach.operations.measures import MEASURED, Margin, read_kind_limits, read_length_or_none, with_margin
from coach.quantities import (
    Kind,
    Limits,
    SizeError,
    read_length_mm,
    read_mass_g,
    read_share,
    read_temperature_c,
)
from coach.recipe import words
from coach.recipe.model import Loss

#: The limits of a size that is written without any (common practice, no source).
LENGTHS: Final = Margin(1.5, 0.015)
WIDTHS: Final = Margin(1.0, 0.03)
HOLES: Final = Margin(0.5, 0.03)
OTHERS: Final = MEASURED[Kind.LENGTH].margin
DEFAULT_LIMITS: Final[Mapping[str, Margin]] = {
    "length": LENGTHS,
    "scarf_length": LENGTHS,
    "groove_length": LENGTHS,
    "haft_length": LENGTHS,
    "width": WIDTHS,
    "end_width": WIDTHS,
    "hole_length": HOLES,
    "hole_width": HOLES,
    "far_hole_length": HOLES,
    "far_hole_width": HOLES,
}
#: A margin for less than an even chance is none, and one for certain has no end (our choice).
_LEAST_CHANCE: Final = 0.5
_MOST_CHANCE: Final = 0.999
_BARE: Final = re.compile(r"\d[\d.,]*")
_MASS_UNITS: Final = ("g", "gram", "grams", "kg", "oz", "ounce", "ounces", "lb", "lbs", "pound", "pounds")


def limits_reader(dimension: str, kind: Kind) -> Callable[[str, str], Limits]:
    """A reader of sizes with limits for a dimension, given a text and the unit of bare numbers.

    Args:
        dimension: its name, which decides the limits of a bare length.
        kind: what it is, one of those in `coach.operations.measures`, not a test.
    """
    margin = DEFAULT_LIMITS.get(dimension) if kind is Kind.LENGTH else None
    return lambda text, unit: read_kind_limits(kind, text, unit, margin)


def default_limits(dimension: str, size_mm: float) -> Limits:
    """The limits of a size that nobody wrote any for."""
    return with_margin(Limits(size_mm, size_mm, size_mm, stated=False), DEFAULT_LIMITS.get(dimension, OTHERS))


def read_heat_c(text: str, unit: str) -> float:
    """A heat in °C, as strictly as a step's own line is read: with its unit, and that of the file.

    Raises SizeError: of a bare number, and of °F in a file in mm.

    >>> read_heat_c("1050 °C", "mm")
    1050.0
    """
    number = text.strip()
    if _BARE.fullmatch(number):
        either = f"{number} °F or {number} °C" if unit == "in" else f"{number} °C"
        raise SizeError(f"{number} of what? Write {either}.")
    if unit == "mm" and re.search(r"°F|\dF| F\b", text):
        raise SizeError("°F in a file in mm: write °C, or units: in for the whole file.")
    return read_temperature_c(text)


def known_amounts() -> Mapping[str, Kind]:
    """Every amount that some operation lets a recipe state: name -> length or share."""
    return {name: kind for todo in operations().values() for name, kind in todo.AMOUNTS.items()}


def amount_reader(kind: Kind) -> Callable[[str, str], float]:
    """A reader of an amount, which may be nothing: a length in mm or a share."""
    return (lambda text, _: read_share(text)) if kind is Kind.SHARE else read_length_or_none


def read_share_or_none(text: str) -> float:
    """A share; `none` is 0. Raises SizeError."""
    return 0.0 if text.strip().lower() == words.NONE else read_share(text)


class MarkedOver(NamedTuple):
    """What is to be marked out of every zone beyond the plan, one of these."""

    share: float | None = None  # of its volume
    chance: float | None = None  # that its metal is enough


def read_margin(text: str) -> MarkedOver:
    """`3 %`, or `enough for 95 %`, a chance from 50 to 99.9 %. Raises SizeError.

    >>> read_margin("enough for 95 %").chance
    0.95
    """
    before, enough, told = text.strip().partition("enough for ")
    if not enough:
        return MarkedOver(share=read_share(text))
    chance = read_share(told)
    if before or not _LEAST_CHANCE <= chance <= _MOST_CHANCE:
        raise SizeError(f"{words.echo(text)} is no margin: write one such as enough for 95 %, or 3 %.")
    return MarkedOver(chance=chance)


def read_loss(text: str, unit: str) -> Loss:
    """A loss as a mass, a share or a length: `5 g`, `2 %`, `3/8 in`. Raises SizeError.

    >>> read_loss("5 g", "mm").mass_g
    5.0
    """
    written = text.strip().lower()
    if written.endswith("%"):
        return Loss(share=read_share(text))
    last_word = written.split()[-1].lstrip("0123456789.,/") if written else ""
    if last_word in _MASS_UNITS:
        return Loss(mass_g=read_mass_g(text))
    if written and (written[-1].isdigit() or written[-1] in "½⅓⅔¼¾⅛⅜⅝⅞"):
        raise SizeError(f"{words.echo(text)} needs its unit: write 5 g, 2 % or 3 mm.")
    return Loss(length_mm=read_length_mm(text, unit))


def read_heats(text: str) -> int:
    """A number of heats, 0 to 99. Raises SizeError."""
    if text.isascii() and text.isdigit() and len(text) <= 2:
        return int(text)
    raise SizeError(f"{words.echo(text)} is no number of heats: write a whole number from 0 to 99.")
