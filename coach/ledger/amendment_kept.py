"""A way back as it is kept: written as JSON, and read again with a clause for what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from math import inf, isinf
from typing import Any, get_args, get_type_hints

from coach.ledger.amendment import Again, Amendment, CutAnew, Regained
from coach.quantities import Limits
from coach.quantities.refusal import Refusal


def frozen(amendment: Amendment) -> dict[str, object]:
    """An amendment as JSON-able values; an open limit is None, and what a row does not have is left out."""
    return {
        name: [[_plain(value) for value in row if value is not None] for row in rows]
        for name, rows in zip(Amendment._fields, amendment, strict=True)
        if rows or name not in _LATER
    }


def thawed(kept: object) -> Amendment:
    """The amendment that `frozen` made these values from; raises NotAnAmendment, saying what is wrong."""
    rows = _rows()
    if not isinstance(kept, Mapping) or kept.keys() | _LATER != rows.keys():
        raise NotAnAmendment("it must have {}", ", ".join(name for name in rows if name not in _LATER))
    return Amendment(**{name: _read_rows(name, *row, kept.get(name, ())) for name, row in rows.items()})


class NotAnAmendment(Refusal):
    """Values that are no amendment; it says, in a clause, which of them and what was expected."""


#: How many fields a row had from the first; a job that was kept then has no more (our choice).
_AT_FIRST: Mapping[type, int] = {Again: 5, Regained: 4, CutAnew: 1}
#: Lists that an amendment had not from the first (our choice).
_LATER = frozenset({"cut_anew", "off_bar"})
#: What a file that was carried in may hold at most (our choice).
_MOST_ROWS = 1000
_LARGEST = 1e12
_LONGEST = 200


@cache
def _rows() -> Mapping[str, tuple[Any, tuple[object, ...]]]:
    """What each list of an amendment holds, with the types of its fields."""
    rows = {name: get_args(hint)[0] for name, hint in get_type_hints(Amendment).items()}
    return {name: (row, tuple(get_type_hints(row).values())) for name, row in rows.items()}


def _read_rows(name: str, row: Any, types: Sequence[object], told: object) -> tuple[Any, ...]:
    kinds = [_READ[kind] for kind in types]
    if not isinstance(told, list | tuple) or len(told) > _MOST_ROWS:
        raise NotAnAmendment("its {} must be a list of at most {}", name, _MOST_ROWS)
    read = []
    for values in told:
        if not isinstance(values, list | tuple) or len(values) not in (len(kinds), _AT_FIRST.get(row)):
            raise NotAnAmendment("each of its {} must have {}", name, ", ".join(row._fields))
        for (expected, is_one, _), value in zip(kinds, values, strict=False):
            if not is_one(value):
                raise NotAnAmendment("its {} must hold {} where something else stands", name, expected)
        read.append(row(*(make(value) for (_, _, make), value in zip(kinds, values, strict=False))))
    return tuple(read)


def _plain(value: object) -> object:
    if isinstance(value, Limits):
        return [value.nominal, *(None if isinf(one) else one for one in (value.low, value.high))]
    return list(value) if isinstance(value, tuple) else value


def _is_name(value: object) -> bool:
    return isinstance(value, str) and len(value) <= _LONGEST and value.isprintable()


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= _LARGEST


def _are_limits(value: object) -> bool:
    if not isinstance(value, list | tuple) or len(value) != 3:
        return False
    nominal, low, high = value
    if not _is_number(nominal) or not all(one is None or _is_number(one) for one in (low, high)):
        return False
    return (low is None or low <= nominal) and (high is None or nominal <= high)


def _limits(told: Sequence[Any]) -> Limits:
    nominal, low, high = told
    return Limits(nominal, -inf if low is None else low, inf if high is None else high, True)


#: By how a field is typed: what is expected of its value, whether it is that, and what is made of it (our
#: choice).
_READ: Mapping[object, tuple[str, Callable[[object], bool], Callable[[Any], object]]] = {
    str: ("a name", _is_name, str),
    int: ("a whole number", lambda value: type(value) is int and 0 <= value <= _MOST_ROWS, int),
    float: ("a number", _is_number, float),
    bool: ("true or false", lambda value: isinstance(value, bool), bool),
    Limits: ("a size and its limits", _are_limits, _limits),
    Limits | None: (
        "a size and its limits, or nothing",
        lambda value: value is None or _are_limits(value),
        lambda value: None if value is None else _limits(value),
    ),
    tuple[str, ...]: (
        "a list of names",
        lambda value: isinstance(value, list | tuple) and all(map(_is_name, value)),
        tuple,
    ),
}
