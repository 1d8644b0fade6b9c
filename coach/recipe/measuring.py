"""Reads sizes inside a line strictly: one sign lost or swapped is a fault, never another size."""

from __future__ import annotations

import re
from functools import cache
from math import gcd
from typing import Final, NamedTuple

from coach.forms import listed
from coach.quantities import Kind
from coach.recipe.findings import Path
from coach.recipe.line import Line
from coach.recipe.words import echo

NUMBER: Final = r"(?:(?:\d{1,9}[ -])?\d{1,9}/\d{1,9}|\d{1,9}(?:[.,]\d{1,9})?)"
_DENOMINATORS: Final = (2, 4, 8, 16, 32, 64)
#: A bare number so large is not taken for inches: it may be a fraction that lost its stroke (our choice).
_MOST_BARE_INCHES: Final = 10


class Unit(NamedTuple):
    """What the sizes of one kind may be written in."""

    pattern: str
    needed: str  # what to write where there is no unit; empty where a bare number is one
    example: str


UNITS: Final = {
    Kind.LENGTH: Unit("mm|in|ft", "", "30 or 30 ±1"),
    Kind.GAP: Unit("mm|in", "", "0.5 or none"),
    Kind.ANGLE: Unit("°|deg", "", "25 ±2°"),
    Kind.TEMPERATURE: Unit("°C|°F", "{0} °C", "800 to 830 °C"),
    Kind.TIME: Unit("s|min|h", "{0} min or {0} h", "5 to 10 min"),
    Kind.HARDNESS: Unit("HRC|HV", "", "53 to 57"),
    Kind.SHARE: Unit("%", "{0} %", "3 %"),
}


class Size(NamedTuple):
    """A size with its limits as it was written, each part with its unit, and its place."""

    text: str
    place: Path
    word_at: Path = ()  # where the word stands that says what it is; nowhere in a section

    @property
    def named_at(self) -> Path:
        """Where its name stands, or else itself."""
        return self.word_at or self.place

    @property
    def has_limits(self) -> bool:
        """Whether limits stand beside the size."""
        return bool(re.search(r"[±+]|\bto\b|\bat \b|\bbetween\b", self.text))


class _Patterns(NamedTuple):
    size: re.Pattern[str]
    plus_minus: re.Pattern[str]


@cache
def _patterns(kind: Kind) -> _Patterns:
    unit = rf"(?: ?(?P<unit>{UNITS[kind].pattern})(?![A-Za-z]))?"
    joined = {
        Kind.LENGTH: rf"(?P<both>\d+ ft {NUMBER} in\b)|",
        Kind.TIME: r"(?P<both>\d+ h \d+ min\b)|",
    }.get(kind, "(?P<both>(?!))|")
    foreign = r"(?:(?:cm|m|dm|yd|inch|inches|k?g|oz|lb)\b|%)"
    end = r"(?![\w/°%\"'′″±+*^]|[.,]\d|\.(?:\s|$|,)| ?(?:±|\+/-)(?!\d)| " + foreign + ")"
    if kind is Kind.SHARE:
        end = r"(?![\w/°%\"'′″±+*^]|[.,]\d|\.(?:\s|$|,))"
    size = re.compile(rf"(?:{joined}(?P<number>{NUMBER}){unit}){end}")
    return _Patterns(size, re.compile(r" (?:±|\+/-)(?=\d)"))


_WORDS: Final = re.compile(r"(at least|at most|between) (?=\d)")
_ONE_SIDED: Final = re.compile(r" (at least|at most) (?=\d)")
_PLUS: Final = re.compile(r" \+(?=\d)")
_ILL_JOINED: Final = re.compile(r" ?(?:mm|in)?(?:\+-|-\+|±) ?\d")
_DASH: Final = re.compile(r" [-–] \d")
_MINUS: Final = re.compile(r" [-−](?=\d)")
_TURNED_ROUND: Final = re.compile(rf" [-−]({NUMBER}) \+({NUMBER})")
_AND: Final = re.compile(" and (?=\\d)")
_TO: Final = re.compile(" to (?=\\d)")
_NONE: Final = re.compile(r"none\b")

#: What slips a hand makes at a size, and what to write instead; the first that fits is told.
_SLIPS: Final = [
    (re.compile(p), said)
    for p, said in (
        (r"[1-9]\d{0,2},\d{3}(?!\d)", "{} can be read in two ways: write {joined} or {point}"),
        (r"(?:at least|at most|between) -\d[\d.,]*", "{}: no size is less than nothing: leave its sign out"),
        (r"[\d.,/]+(?:±|\+/-|\+\d|\+-)", "{}: a blank belongs before the tolerance, as in 28 ±1"),
        (r"[\d.,/ ]+ ?± ", "{}: no blank belongs behind ±, as in 28 ±1"),
        (r"[\d.,/]+ (?:±|\+/-)[-+−][\d.,/]+", "{}: ± is both signs: leave the other out, as in 28 ±1"),
        (r"[\d.,/]+ (?:±|\+/-)[.,]\d", "{}: write 0 before its mark, as in 28 ±0.4"),
        (r"[\d.,/]+[x×]", "{}: blanks belong round x, as in 22 x 12"),
        (r"[\d.,/]+ ?%", "{}: a share is no size and no limit of one: write {unit}"),
        (r"\.\d", "{} begins with its mark: write 0 before it"),
        (r"\d+[.](?!\d)", "{} ends in its mark: write the digit behind it, or leave it out"),
        (r"[\d.,/ ]+ ?[\"”″'′]", "{}: write sizes in mm, in or ft, as in 1 1/4 in"),
        (r"[\d.,/]+ ?(?:cm|m|dm|yd|inch|inches)\b", "{}: write {unit}"),
        (r"[\d.,/]+ ?[CF]\b", "{}: write °C or °F, as in 1100 °C"),
        (r"[\d.,/]+e\d", "{} has a power of ten: write the number out in full"),
        (r"[\d.,]+ x [\d.,]+ x", "{}: a third size: is it the length? Write long before it, after a comma"),
    )
]


def read_size(
    line: Line, kind: Kind = Kind.LENGTH, *, ranged: bool = True, limits: bool = True
) -> Size | None:
    """The size that stands here, with its limits; None, with a fault, where none can be read.

    Args:
        line: read up to where the size begins.
        kind: what it is.
        ranged: whether `27 to 29` are limits here: never in a section, where it is a taper.
        limits: whether limits may stand beside it.
    """
    start, place = line.at, line.place()
    if kind is Kind.GAP and line.take(_NONE):
        return Size("none", place)
    text = _limits(line, kind, ranged) if limits else _one(line, kind)
    if text is None:
        if not line.faulty or line.at == start:
            _say_slip(line, kind)
        return None
    return Size(text, place)


def _limits(line: Line, kind: Kind, ranged: bool) -> str | None:
    start = line.at
    if word := line.take(_WORDS):
        if kind is Kind.GAP and word[1] == "at least":
            line.fault("nothing here is too little: write at most before it", start)
            return None
        first = _one(line, kind)
        if first is None or word[1] != "between":
            return None if first is None else f"{word[1]} {first}"
        if not line.take(_AND):
            line.fault("between wants two sizes, as in between 27 and 29")
            return None
        second = _one(line, kind)
        return None if second is None else f"{first} to {second}"
    size = _one(line, kind)
    if size is None:
        return None
    if line.take(_patterns(kind).plus_minus):
        return _with(line, kind, size + " ±")
    if line.take(_PLUS):
        return _both_sides(line, kind, size)
    if line.looks(_ILL_JOINED):
        line.fault("a tolerance stands behind a blank, with ±, as in 28 ±1")
        return None
    if line.looks(_DASH):
        line.fault("a dash between two sizes: write to for a taper, or between and and for limits")
        return None
    if turned := line.looks(_TURNED_ROUND):
        line.fault(f"what it may be more comes first: write {size} +{turned[2]} -{turned[1]}")
        return None
    if line.looks(_MINUS):
        line.fault("a tolerance on one side only: write both, as in 80 +0 -1")
        return None
    if word := line.take(_ONE_SIDED):
        return _with(line, kind, f"{size}, {word[1]} ")
    if ranged and line.take(_TO):
        return _with(line, kind, f"{size} to ")
    return size


def _with(line: Line, kind: Kind, before: str) -> str | None:
    after = _one(line, kind, tolerance=True)
    return None if after is None else before + after


def _both_sides(line: Line, kind: Kind, size: str) -> str | None:
    more = _one(line, kind, tolerance=True)
    if more is None:
        return None
    if not line.take(_MINUS):
        line.fault("a tolerance on one side only: write both, as in 80 +0 -1")
        return None
    less = _one(line, kind, tolerance=True)
    return None if less is None else f"{size} +{more} -{less}"


def _one(line: Line, kind: Kind, *, tolerance: bool = False) -> str | None:
    """One size with its unit, which may stand farther along in the part."""
    start = line.at
    found = line.take(_patterns(kind).size)
    if not found:
        return None
    if found["both"]:
        return found["both"]
    number = found["number"]
    if not _is_sound(line, number, start):
        return None
    unit = found["unit"] or _unit_ahead(line, kind)
    if not unit and kind is not Kind.GAP and not _may_be_bare(line, kind, number, start, tolerance):
        return None
    if unit == "°F" and line.unit == "mm":
        line.fault("°F in a file in mm: write °C, or units: in for the whole file", start)
        return None
    if kind is not Kind.LENGTH:
        unit = found["unit"]  # limits of one size take the last unit written anyway
    if unit == "°":
        return f"{number}°"
    return f"{number} {unit}" if unit else number


def _unit_ahead(line: Line, kind: Kind) -> str:
    """A unit holds back to the comma before it."""
    ahead = re.search(rf"(?<=[\d]) ?({UNITS[kind].pattern})(?![A-Za-z])", line.part)
    return ahead[1] if ahead else ""


#: Degrees without their sign.
_BARE_DEGREES: Final = re.compile(r"(?:^|\d) ?([CF])(?!\w)")


def _may_be_bare(line: Line, kind: Kind, number: str, start: int, tolerance: bool) -> bool:
    needed = UNITS[kind].needed
    if needed and not tolerance:
        if kind is Kind.TEMPERATURE and (letter := _BARE_DEGREES.search(line.part)):
            other = letter[1] == "F" and line.unit == "mm"
            write = (
                "°C, or units: in for the whole file"
                if other
                else f"°{letter[1]}, as in {number} °{letter[1]}"
            )
            line.fault(f"{number} {letter[1]}{' in a file in mm' if other else ''}: write {write}", start)
            return False
        either = "{0} °F or {0} °C" if kind is Kind.TEMPERATURE and line.unit == "in" else needed
        line.fault(f"{number} of what? Write {either.format(number)}", start)
        return False
    if kind is not Kind.LENGTH:
        return True
    other = "in|ft" if line.unit == "mm" else "mm"
    if re.search(rf"\d ?(?:{other})\b", line.text):
        message = f"{number} has no unit while another size in this line has: write one here too"
        line.fault(message, start)
        return False
    if line.unit == "in" and re.fullmatch(r"\d+", number) and int(number) >= _MOST_BARE_INCHES:
        line.fault(
            f"{number} of what, in a file in inches? Write {number} in, {number} mm, or the fraction "
            "that lost its stroke",
            start,
        )
        return False
    return True


def _is_sound(line: Line, number: str, start: int) -> bool:
    """Whether a number can be read in one way only."""
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", number):
        point, joined = number.replace(",", ".").rstrip("0").rstrip("."), number.replace(",", "")
        line.fault(f"{number} can be read in two ways: write {joined} or {point}", start)
        return False
    if "/" not in number:
        return True
    top, bottom = (int(part) for part in re.split("[ -]", number)[-1].split("/"))
    if bottom not in _DENOMINATORS or gcd(top, bottom) != 1 or top >= bottom:
        line.fault(f"{number} is no fraction of a rule: write one such as 3/8 or 1 1/4, in its lowest", start)
        return False
    return True


def _in_its_unit(kind: Kind) -> str:
    """What a size of a kind is to be written in."""
    if kind in (Kind.LENGTH, Kind.GAP):
        return "sizes in mm, in or ft"
    return f"it in {listed(UNITS[kind].pattern.split('|'), 'or')}, as in {UNITS[kind].example}"


def _say_slip(line: Line, kind: Kind) -> None:
    """Say what is wrong with what stands where a size belongs."""
    for pattern, said in _SLIPS:
        if found := line.looks(pattern):
            text = found[0].strip()
            known = {
                "joined": text.replace(",", ""),
                "point": text.replace(",", "."),
                "unit": _in_its_unit(kind),
            }
            line.fault(said.format(echo(text), **known))
            return
    part = re.match(r"\S*", line.rest)
    written = part[0].rstrip(",") if part else ""
    if not written:
        line.fault(f"a size is missing here: write one, such as {UNITS[kind].example}")
    else:
        line.fault(f"{echo(written)} is no size: write one such as {UNITS[kind].example}")
