"""What may stand in one field of an entry: how long a text, how large a number, and which entry before it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from datetime import datetime
from math import inf, isfinite
from typing import TYPE_CHECKING, Any, Final, NamedTuple, TypeGuard

from coach.quantities.figure import Figure, Kind, Wanted
from coach.quantities.limits import Limits
from coach.quantities.refusal import Refusal
from coach.quantities.words import Part, Words, as_words, say

if TYPE_CHECKING:
    from coach.log.body import Body

#: Names of zones, sizes, gauges and tests.
LONGEST_NAME = 200
#: Anything that is one line.
LONGEST_LINE = 1000
_MOST_STEPS = 10_000

_UTC_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|\+00:00)", re.ASCII)
_FIRST_YEAR, _LAST_YEAR = 1970, 2999  # a clock that was never set begins in the one

_HALF_A_CHARACTER = re.compile(r"[\ud800-\udfff]")
_NOT_IN_A_LINE = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]")


class OutOfLimits(Refusal):
    """An entry that cannot be: which of its parts, what was expected of it, and what it was."""

    def __init__(self, clause: Words) -> None:
        """`clause` goes on after "it cannot be taken: "; it begins with "the"."""
        super().__init__(_opened(clause))
        self.clause = clause


def _opened(clause: Words) -> Words:
    return Words(f"{clause.template[:1].upper()}{clause.template[1:]}.", clause.parts)


def _as_it_is(value: object) -> object:
    return value


class Limit(NamedTuple):
    """What one field of an entry may hold."""

    expected: str
    """It, in words that go on after "must be"."""
    fault: Callable[[object], str | None]
    """What a value is instead, in a word or two; None when it is as it must be."""
    to_json: Callable[[Any], object] = _as_it_is
    """The value as JSON holds it."""
    from_json: Callable[[object], object] = _as_it_is
    """The value that JSON held; raises Refusal when it cannot be one."""
    is_one: Callable[[type[Body]], bool] | None = None
    """Of the number of an earlier entry: whether entries of a kind can be meant."""
    may_lack: bool = False
    """Whether it may be left out, and is where there is nothing to say: None then."""


_MOST = 1_000_000_000
#: Of a figure in words, in the base unit of its kind, and how deep words may lie within words (our choice).
_LARGEST_NUMBER = 1e12
_DEEPEST_WORDS = 20


def kept_text(value: object) -> str:
    """How a value that is refused is told: short, and never its own length of a megabyte."""
    if isinstance(value, str):
        return f"{value!r}" if len(value) <= 40 else f"{value[:30]!r}… of {len(value)} characters"
    if isinstance(value, bool | None):
        return {True: "true", False: "false", None: "nothing"}[value]
    if isinstance(value, int) and value.bit_length() > 64:
        return "a number beyond all measure"
    if isinstance(value, int | float):
        return f"{value}"
    if isinstance(value, Mapping):
        return "a JSON object"
    return "a list" if isinstance(value, list | tuple) else "something else"


def _text_fault(least: int, most: int, unfit: re.Pattern[str]) -> Callable[[object], str | None]:
    def fault(value: object) -> str | None:
        if not isinstance(value, str):
            return kept_text(value)
        if not least <= len(value) <= most:
            return f"{len(value)} of them" if value else "none"
        found = unfit.search(value)
        return f"some with {found.group()!a} among them" if found else None

    return fault


def _whole_fault(least: int, most: int) -> Callable[[object], str | None]:
    def fault(value: object) -> str | None:
        return None if type(value) is int and least <= value <= most else kept_text(value)

    return fault


def line(longest: int = LONGEST_LINE, *, least: int = 1) -> Any:
    """Text of one line."""
    return Limit(f"{least} to {longest} characters on one line", _text_fault(least, longest, _NOT_IN_A_LINE))


def writing(longest: int, *, least: int = 1) -> Any:
    """Text of any number of lines."""
    return Limit(f"{least} to {longest} characters of text", _text_fault(least, longest, _HALF_A_CHARACTER))


def one_of(*allowed: str) -> Any:
    """One of a few words."""
    return Limit(
        f"one of {', '.join(allowed)}",
        lambda value: None if isinstance(value, str) and value in allowed else kept_text(value),
    )


def whole(least: int, most: int) -> Any:
    """A whole number."""
    return Limit(f"a whole number from {least} to {most}", _whole_fault(least, most))


def step_number(*, least: int = 1) -> Any:
    """The number of a step; where it may be 0, that is for a job whose every step was done."""
    return whole(least, _MOST_STEPS)


def number(least: float, most: float, *, or_none: bool = False) -> Any:
    """A number; with `or_none` it may be missing."""

    def fault(value: object) -> str | None:
        if value is None and or_none:
            return None
        return None if _is_number(value) and least <= value <= most else kept_text(value)

    return Limit(f"a number from {least:.10g} to {most:.10g}{' or null' if or_none else ''}", fault)


def numbers(names: tuple[str, ...], least: float, most: float, *, default: None = None) -> Any:
    """Some numbers by their names, or none of them, and then nothing is written.

    `default` tells type checkers that it may lack.
    """

    def fault(value: object) -> str | None:
        if value is default:
            return None
        if not isinstance(value, tuple) or len(value) != len(names):
            return kept_text(value)
        return next(
            (kept_text(one) for one in value if not _is_number(one) or not least <= one <= most), None
        )

    def from_json(held: object) -> tuple[object, ...]:
        if not isinstance(held, Mapping) or held.keys() != set(names):
            raise Refusal("{} is not that", kept_text(held))
        return tuple(held[name] for name in names)

    return Limit(
        f"{', '.join(names)}, each a number from {least:.10g} to {most:.10g}",
        fault,
        lambda value: dict(zip(names, value, strict=True)),
        from_json,
        may_lack=True,
    )


def moment_fault(at: str) -> str | None:
    """What is wrong with the moment of an entry, to go on after "its moment"; None when nothing is."""
    if not _UTC_MOMENT.fullmatch(at):
        return f"{at[:40]!r} is not ISO 8601 in UTC, such as 2026-11-25T09:30:00Z"
    try:
        year = datetime.fromisoformat(at).year
    except ValueError:
        return f"{at!r} is not in the calendar"
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        return f"{at!r} is not from {_FIRST_YEAR} to {_LAST_YEAR}"
    return None


def moment() -> Any:
    """A moment: ISO 8601, UTC; or an empty text for none."""

    def fault(value: object) -> str | None:
        if not isinstance(value, str):
            return kept_text(value)
        return None if not value or moment_fault(value) is None else kept_text(value)

    return Limit("a moment of ISO 8601 in UTC, or an empty text", fault)


def flag() -> Any:
    """True or false."""
    return Limit("true or false", lambda value: None if isinstance(value, bool) else kept_text(value))


def texts(most: int, longest: int) -> Any:
    """Texts by name."""
    one, name = (
        _text_fault(1, longest, _HALF_A_CHARACTER),
        _text_fault(1, LONGEST_NAME, _NOT_IN_A_LINE),
    )

    def fault(value: object) -> str | None:
        if not isinstance(value, Mapping):
            return kept_text(value)
        if len(value) > most:
            return f"{len(value)} of them"
        return next((wrong for key, item in value.items() if (wrong := name(key) or one(item))), None)

    return Limit(f"at most {most} texts of 1 to {longest} characters, each by its name", fault)


def earlier(what: str, is_one: Callable[[type[Body]], bool]) -> Any:
    """The number of an earlier entry of this job, of a kind that can be meant."""
    return Limit(f"the number of {what} before it", _whole_fault(1, _MOST), is_one=is_one)


def written(
    expected: str,
    fault: Callable[[object], str | None],
    to_json: Callable[[Any], object],
    from_json: Callable[[object], object],
) -> Any:
    """A value of another room, which writes and reads it itself."""
    return Limit(expected, fault, to_json, from_json)


def saying(longest: int, *, least: int = 1) -> Any:
    """Words with figures in them, which are told in whichever units are asked for."""
    text = _text_fault(least, longest, _HALF_A_CHARACTER)
    return Limit(
        f"words of {least} to {longest} characters",
        lambda value: text(str(value)) if isinstance(value, Words) else kept_text(value),
        _words_out,
        _words_in,
    )


def _words_out(words: Words) -> object:
    """Words without figures as a text, others as a list: the template, then its parts."""
    return text if words == as_words(text := str(words)) else _parts_out(words)


def _words_in(held: object) -> object:
    return as_words(held) if isinstance(held, str) else _part_in(held)


def _parts_out(words: Words) -> list[object]:
    return [words.template, *(_part_out(part) for part in words.parts)]


def _part_out(part: Part) -> object:
    if isinstance(part, Words):
        return _parts_out(part)
    if isinstance(part, Figure):
        return {"value": part.value, "kind": part.kind.name, "doubt": part.doubt}
    if isinstance(part, Wanted):
        of = part.limits
        low, high = (end if isfinite(end) else None for end in (of.low, of.high))
        kind = part.kind.name
        return {"nominal": of.nominal, "low": low, "high": high, "stated": of.stated, "kind": kind}
    if isinstance(part, str | int):
        return part
    raise TypeError(f"{part!r} is kept in no entry")


def _part_in(held: object, inside: int = 0) -> Any:
    """A part as it was before; a Refusal where it never was one."""
    if isinstance(held, str) or (type(held) is int and _is_number(held)):
        return held
    if isinstance(held, list) and held and isinstance(held[0], str):
        if inside == _DEEPEST_WORDS:
            raise Refusal("its parts lie in one another too deep")
        try:
            return say(held[0], *(_part_in(part, inside + 1) for part in held[1:]))
        except (IndexError, ValueError):
            raise Refusal("its template does not fit its parts") from None
    if isinstance(held, Mapping) and held.keys() == {"value", "kind", "doubt"}:
        value, kind, doubt = held["value"], held["kind"], held["doubt"]
        is_doubt = doubt is None or (_is_number(doubt) and doubt >= 0.0)
        if isinstance(kind, str) and kind in Kind.__members__ and _is_number(value) and is_doubt:
            return Figure(float(value), Kind[kind], doubt)
    if isinstance(held, Mapping) and held.keys() == {*_OF_WANTED}:
        return _wanted_in(held)
    raise Refusal("{} is no part of it", kept_text(held))


_OF_WANTED: Final = ("nominal", "low", "high", "stated", "kind")


def _wanted_in(held: Mapping[str, Any]) -> Wanted:
    nominal, low, high, stated, kind = (held[name] for name in _OF_WANTED)
    ends = (_is_number(nominal), low is None or _is_number(low), high is None or _is_number(high))
    if all(ends) and isinstance(stated, bool) and isinstance(kind, str) and kind in Kind.__members__:
        least, most = -inf if low is None else float(low), inf if high is None else float(high)
        with suppress(ValueError):
            return Wanted(Limits(float(nominal), least, most, stated), Kind[kind])
    raise Refusal("{} is no part of it", kept_text(held))


def _is_number(value: object) -> TypeGuard[float]:
    # By comparing: a whole number that is larger than any float cannot be made one, nor looked at as one.
    return (
        isinstance(value, int | float)
        and not isinstance(value, bool)
        and -_LARGEST_NUMBER <= value <= _LARGEST_NUMBER
    )
