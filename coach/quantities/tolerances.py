"""Reads a size with the limits it must keep, as a smith writes them on a drawing."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Final

from coach.quantities.amounts import read_length_mm
from coach.quantities.errors import SizeError, briefly
from coach.quantities.limits import Limits
from coach.quantities.numerals import NUMBER, number_in, refuse_odd_numbers, tidy

_WANTED: Final = "type a size such as 28, 28 ±1, 28 +0 -1, 27 to 29 or at least 40"
_OPEN: Final = re.compile(
    r"(?:(?P<nominal>.+?) ?[,;] ?)?"
    r"(?:(?P<low>at least|min(?:imum)?\.?|>=|≥)|(?P<high>at most|max(?:imum)?\.?|<=|≤)) ?(?P<limit>[^a-z ].*)"
)
_RANGE: Final = re.compile("(?P<low>.*?) ?(?:(?<![a-z])to(?![a-z])|\N{EN DASH}) ?(?P<high>.*)")
# 27-29, but neither 1-1/4, which is a mixed number, nor 28 -1, which is one tolerance.
_HYPHEN_RANGE: Final = re.compile(
    r"(?P<low>[0-9]*[.,]?[0-9]+(?: ?[^0-9 /'-]+)?)(?:-| - )(?P<high>[0-9]*[.,]?[0-9]+ ?[^0-9/]*)"
)
_PLUS_MINUS: Final = re.compile(r"\+ ?/? ?-|- ?/ ?\+")
_BRACKETS: Final = re.compile(r"([^()]+)\(([^()]+)\)([^()0-9]*)")
# A minus that starts a tolerance, unlike the hyphen of a mixed number or between feet and inches.
_SIGN: Final = re.compile(r"(?<![0-9'])-|(?<=[0-9])-(?![0-9]+ ?/)|(?<=/[0-9])-|(?<=/[0-9]{2})-|[+±]")
_LONE_MINUS: Final = re.compile(r"[^ ] -[0-9.,]")

Reader = Callable[[str], float]


def read_limits(text: str, read: Reader = read_length_mm) -> Limits:
    """Return the size and limits written in `text`, each part read by `read`.

    `read` is one of this package's readers, or such a reader with another default unit. Read are `28`,
    `28 ±1`, `28 +/- 1`, `28 +0 -1`, `28 (+0 -1)`, `27 to 29`, `27-29`, `at least 40`, `at most 6`, `>= 40`,
    `min 40`, and `44, at least 40` for a size to aim at with one limit. A part without a unit takes the last
    unit written. The nominal size of `27 to 29` is the middle. Raises SizeError with one sentence for
    anything else, and where a limit is no size itself, as in `28 ±30`.

    >>> read_limits("28 +0 -1")
    Limits(nominal=28.0, low=27.0, high=28.0, stated=True)
    """
    tidied = tidy(text, _WANTED)
    refuse_odd_numbers(tidied, text)
    if found := _OPEN.fullmatch(tidied):
        return _open(found, text, read)
    if found := _RANGE.fullmatch(tidied):
        return _between(found, text, read)
    signed = _PLUS_MINUS.sub("±", tidied)
    if "+" in signed[1:] or "±" in signed:
        return _toleranced(signed, text, read)
    if found := _HYPHEN_RANGE.fullmatch(tidied):
        return _between(found, text, read)
    if _LONE_MINUS.search(tidied):
        raise SizeError(f"{briefly(text)} has a tolerance on one side only; write both, as in 28 +0 -1.")
    size = read(text)
    return Limits(size, size, size, stated=False)


def _open(found: re.Match[str], text: str, read: Reader) -> Limits:
    """Return limits with one side open, from a match of `_OPEN`."""
    parts = _with_units([part for part in (found["nominal"], found["limit"]) if part], text)
    limit, nominal = read(parts[-1]), read(parts[0])
    low, high = (limit, math.inf) if found["low"] else (-math.inf, limit)
    if not low <= nominal <= high:
        raise SizeError(f"{briefly(text)} aims outside its own limit; {_WANTED}.")
    return Limits(nominal, low, high, stated=True)


def _between(found: re.Match[str], text: str, read: Reader) -> Limits:
    """Return limits from a low and a high size."""
    parts = _with_units([found["low"].strip(), found["high"].strip()], text)
    low, high = (read(part) for part in parts)
    if low > high:
        raise SizeError(
            f"{briefly(text)} has the larger size first; write the smaller one first, as in 27 to 29."
        )
    unit = _unit_of(parts[1])
    middle = (_level(parts[0], unit, read) + _level(parts[1], unit, read)) / 2
    return Limits(min(max(read(_written(middle, unit)), low), high), low, high, stated=True)


def _toleranced(signed: str, text: str, read: Reader) -> Limits:
    """Return limits from a size and its tolerances, `signed` having `±` for every way of writing it."""
    if brackets := _BRACKETS.fullmatch(signed):
        signed = " ".join(part.strip() for part in brackets.groups()).strip()
    # The first character cannot start a tolerance: it is the sign of a temperature below zero.
    signs = list(_SIGN.finditer(signed, 1))
    starts = [0, *(sign.end() for sign in signs)]
    ends = [*(sign.start() for sign in signs), len(signed)]
    parts = [signed[start:end].strip(" ,;/") for start, end in zip(starts, ends, strict=True)]
    kinds = "".join(sign[0] for sign in signs)
    if kinds in {"+", "-"}:
        raise SizeError(f"{briefly(text)} has a tolerance on one side only; write both, as in 28 +0 -1.")
    if kinds in {"++", "--"}:
        raise SizeError(f"{briefly(text)} has both tolerances on one side; write the limits, as in 27 to 29.")
    if kinds not in {"±", "+-", "-+"}:
        raise _not_limits(text)
    size, *tolerances = _with_units(parts, text)
    nominal, unit = read(size), _unit_of(size)
    level = _level(size, unit, read)
    less, more = (_step(part, unit, read) for part in (tolerances[-1], tolerances[0]))
    if kinds == "-+":
        less, more = more, less
    low = _limit(level - less, unit, text, read)
    high = _limit(level + more, unit, text, read)
    return Limits(nominal, min(low, nominal), max(high, nominal), stated=True)


#: Units that are told in other letters than they are read in.
_AS_TOLD: Final = {"°c": "°C", "°f": "°F", "hrc": "HRC", "hv": "HV"}


def _limit(level: Fraction, unit: str, text: str, read: Reader) -> float:
    try:
        return read(_written(level, unit))
    except SizeError:
        reached = f"{float(level):g} {_AS_TOLD.get(unit, unit)}".strip()
        raise SizeError(
            f"{briefly(text)} lets the size reach {reached}, which it cannot be; write a smaller tolerance."
        ) from None


def _not_limits(text: str) -> SizeError:
    return SizeError(f"{briefly(text)} is not a size with its limits; {_WANTED}.")


def _unit_of(part: str) -> str:
    """Return what is written after the last digit."""
    return re.split("[0-9]", part)[-1].strip()


def _with_units(parts: Sequence[str], text: str) -> list[str]:
    """Return the parts, those without a unit having been given the last unit written."""
    if not all(re.search("[0-9]", part) for part in parts):
        raise _not_limits(text)
    given = [part for part in parts if _unit_of(part)]
    if not given or len(given) == len(parts):
        return list(parts)
    unit = _unit_of(given[-1])
    # "1 to 1 ft 2 in": whether the first is a foot or an inch, only the writer knows.
    if given[-1] is parts[-1] and not NUMBER.fullmatch(given[-1].lstrip("+-").removesuffix(unit).strip()):
        raise SizeError(f"{briefly(text)} has a part without a unit; write one after each part.")
    return [part if _unit_of(part) else f"{part} {unit}" for part in parts]


def _written(number: Fraction, unit: str) -> str:
    return f"{number} {unit}".strip()


def _scale(unit: str, read: Reader) -> tuple[float, float]:
    """Return what `read` makes of one of a unit, and by how much two of it are more.

    Two points, because a scale of temperature need not start at zero.
    """
    one = read(f"1 {unit}")
    return one, read(f"2 {unit}") - one


def _level(part: str, unit: str, read: Reader) -> Fraction:
    """Return where the size `part` stands on the scale of `unit`; exact when it is written in that unit."""
    bare = part.removesuffix(unit).strip()
    sign = -1 if bare.startswith("-") else 1
    if found := NUMBER.fullmatch(bare.lstrip("+-").lstrip()):
        return sign * number_in(found)
    one, step = _scale(unit, read)
    return _clean(1 + (read(part) - one) / step)


def _step(part: str, unit: str, read: Reader) -> Fraction:
    """Return how many of `unit` the tolerance `part` makes; exact when it is written in that unit."""
    own_unit = _unit_of(part)
    found = NUMBER.fullmatch(part.removesuffix(own_unit).strip())
    if not found:
        raise SizeError(f"{briefly(part)} is not a tolerance; {_WANTED}.")
    number = number_in(found)
    if own_unit == unit:
        return number
    return number * _clean(_scale(own_unit, read)[1] / _scale(unit, read)[1])


def _clean(number: float) -> Fraction:
    """Return the simple fraction that a number reckoned in floats stands for."""
    return Fraction(number).limit_denominator(1_000_000)
