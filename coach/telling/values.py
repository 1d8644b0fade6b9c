"""An answer as the values that JSON holds: figures with their unit and doubt, words as text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from math import isfinite

from coach.quantities.figure import Figure, Span, Wanted
from coach.quantities.limits import Limits
from coach.quantities.words import Words
from coach.telling.figures import write_wanted
from coach.telling.words import write
from coach.telling.writing import METRIC, Shown


def json_values(value: object, shown: Shown = METRIC) -> object:
    """Return any value of the coach as JSON can hold it.

    A figure becomes {"value", "unit"} in the base unit of its kind, with "doubt" where it has one (standard
    uncertainty in the same unit); a span {"low", "high", "unit"}; what is wanted {"nominal", "low", "high",
    "unit", "text"}; words are told in the units asked for. Named tuples and dataclasses become objects by the
    names of their fields, enums their value, other sequences lists; a number that is not finite becomes None.
    """
    if isinstance(value, Figure | Span | Wanted | Limits):
        return _quantity(value, shown)
    if isinstance(value, Words):
        return write(value, shown)
    if isinstance(value, Enum):
        return json_values(value.value, shown)
    if isinstance(value, float):
        return _number(value)
    return _held(value, shown)


def _held(value: object, shown: Shown) -> object:
    """What holds other values, by the names of its fields, its keys or in its order; anything else itself."""
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        pairs = zip(value._fields, value, strict=True)
        return {name: json_values(item, shown) for name, item in pairs}
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: json_values(getattr(value, field.name), shown) for field in fields(value)}
    if isinstance(value, Mapping):
        return {str(key): json_values(item, shown) for key, item in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [json_values(item, shown) for item in value]
    return value


def _quantity(value: Figure | Span | Wanted | Limits, shown: Shown) -> dict[str, object]:
    if isinstance(value, Figure):
        told: dict[str, object] = {"value": _number(value.value), "unit": value.kind.unit}
        if value.doubt is not None:
            told["doubt"] = _number(value.doubt)
        return told
    if isinstance(value, Span):
        return {"low": _number(value.low), "high": _number(value.high), "unit": value.kind.unit}
    if isinstance(value, Wanted):
        limits = _limits(value.limits)
        return {**limits, "unit": value.kind.unit, "text": write_wanted(value, shown)}
    return _limits(value)


def _number(value: float) -> float | None:
    return value if isfinite(value) else None


def _limits(limits: Limits) -> dict[str, object]:
    return {"nominal": limits.nominal, "low": _number(limits.low), "high": _number(limits.high)}
