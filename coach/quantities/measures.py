"""How an amount is written: a number with its unit, or several that add up, such as `1 ft 2 in`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Final, NamedTuple

from coach.quantities.errors import SizeError, briefly
from coach.quantities.numerals import NUMBER, number_in, refuse_odd_numbers, tidy
from coach.quantities.units import convert

_UNIT: Final = re.compile(r"per cent|[\"'%]|° ?[a-z]*|deg ?[cf](?![a-z])|[a-z]+\.?")


class Measure(NamedTuple):
    """One kind of amount: how people write its units and between which bounds it makes sense.

    `least` and `most` are in `base`; the least itself is allowed only where `least_allowed` says so.
    """

    name: str  # with its article: "a length"
    base: str  # the unit the program reckons in
    words: Mapping[str, str]  # what people write, in lower case, and the unit meant
    offered: str  # the units to name in a refusal
    example: str
    most: Fraction
    bounds: str  # the bounds in words: "more than 0 and at most 100 m"
    least: Fraction = Fraction(0)
    least_allowed: bool = False
    signed: bool = False
    # Units that may follow each other, large before small.
    joins: frozenset[tuple[str, str]] = frozenset()

    @property
    def wanted(self) -> str:
        """What to type instead, to end a refusal with."""
        return f"type {self.name} such as {self.example}"

    def read(self, text: str, unit: str | None) -> Fraction:
        """Return the amount written in `text`, exactly, in the base unit; `unit` is that of a bare number.

        Raises SizeError for anything that is not such an amount within the bounds, and for a bare number
        when `unit` is None. Raises ValueError when `unit` is none of this measure's units.
        """
        if unit is not None and unit not in self.words.values():
            raise ValueError(f"{unit!r} is not a unit of {self.name}")
        tidied = tidy(text, self.wanted)
        refuse_odd_numbers(tidied, text)
        negative = tidied.startswith("-")
        if negative and not self.signed:
            raise SizeError(f"{briefly(text)} starts with a minus; {self.name} must be {self.bounds}.")
        total = self._sum(tidied[1:].lstrip() if tidied[0] in "+-" else tidied, text, unit)
        amount = -total[0] if negative else total[0]
        amount = convert(amount, total[1], self.base)
        if not (self.least < amount <= self.most or (self.least_allowed and amount == self.least)):
            raise SizeError(f"{briefly(text)} is out of reach: {self.name} must be {self.bounds}.")
        return amount

    def _sum(self, rest: str, text: str, default: str | None) -> tuple[Fraction, str]:
        """Return one number and its unit: as written, or in the base unit when several parts add up."""
        parts: list[tuple[Fraction, str]] = []
        while rest or not parts:
            found = NUMBER.match(rest)
            if not found:
                raise SizeError(f"{briefly(text)} is not {self.name}; {self.wanted}.")
            rest = rest[found.end() :].lstrip()
            word = _UNIT.match(rest)
            rest = rest[word.end() :].lstrip() if word else rest
            if not word and rest and rest[0] not in "0123456789.,":
                raise SizeError(f"{briefly(text)} is not {self.name}; {self.wanted}.")
            unit = self._unit(word[0] if word else "", text, default, alone=not parts and not rest)
            number = number_in(found)
            if parts:
                self._check_join(parts[-1], unit, text)
            parts.append((number, unit))
            # A drawing in feet and inches has a hyphen between them: 1'-2".
            if unit == "ft" and rest.startswith("-"):
                rest = rest[1:].lstrip() or rest
        if len(parts) == 1:
            return parts[0]
        return sum((convert(*part, self.base) for part in parts), Fraction(0)), self.base

    def _unit(self, word: str, text: str, default: str | None, *, alone: bool) -> str:
        if word:
            unit = self.words.get(word.removesuffix(".").replace(" ", ""))
            if unit is None:
                raise SizeError(
                    f"{briefly(word)} is not a unit of {self.name.split()[1]}; use {self.offered}."
                )
            return unit
        if default is None:
            raise SizeError(f"{briefly(text)} has no unit; {self.wanted}.")
        if not alone:
            raise SizeError(f"{briefly(text)} has a part without a unit; {self.wanted}.")
        return default

    def _check_join(self, before: tuple[Fraction, str], unit: str, text: str) -> None:
        if (before[1], unit) not in self.joins:
            raise SizeError(f"{briefly(text)} has parts that do not add up to {self.name}; {self.wanted}.")
        if before[0].denominator != 1:
            raise SizeError(
                f"{briefly(text)} has a broken number before its last part; "
                f"make every part but the last whole, or {self.wanted}."
            )


def spelt(**units: str) -> dict[str, str]:
    """Return a table from each way of writing a unit to the unit; the ways are given parted by blanks."""
    return {way: unit for unit, ways in units.items() for way in (unit, *ways.split())}
