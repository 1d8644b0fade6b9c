"""A recipe's meaning as plain values: a job keeps it and opens again without reading the file anew."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from functools import cache
from math import inf, isinf
from types import UnionType
from typing import Any, Literal, get_args, get_origin, get_type_hints

from coach.quantities import Limits
from coach.quantities.refusal import Refusal
from coach.recipe.model import Recipe

#: What a recipe may hold at most: in the base unit of a size's kind, and of steps or heats (our choice).
_LARGEST = 1e12
_MOST = 10_000


class NotThawed(Refusal):
    """What was kept is not a recipe as this version knows it: read the recipe's text again."""


def frozen(recipe: Recipe) -> dict[str, object]:
    """The recipe as JSON-able values, without its text and its file's name; an open limit is None."""
    plain = _plain(recipe)
    assert isinstance(plain, dict)
    return {name: value for name, value in plain.items() if name not in ("text", "source")}


def _plain(value: object) -> object:
    if isinstance(value, Limits):
        return [_open(value.nominal), _open(value.low), _open(value.high), value.stated]
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {name: _plain(item) for name, item in zip(value._fields, value, strict=True)}
    if isinstance(value, Mapping):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return value


def _open(limit: float) -> float | None:
    return None if isinf(limit) else limit


def thawed(kept: Mapping[str, Any], text: str, source: str) -> Recipe:
    """The recipe that `frozen` made these values from; raises NotThawed when they are something else."""
    try:
        recipe: Recipe = _made(Recipe, {**kept, "text": text, "source": source})
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError) as error:
        raise NotThawed(str(error)) from None
    return recipe


def hangs_together(recipe: Recipe) -> bool:
    """Whether its steps, its drawing and its pieces speak of zones and pieces that there are."""
    zones = recipe.drawing.keys()
    checks = [check for one in recipe.steps for check in one.checks]
    of_steps = (
        (*one.zones, *one.parts, *one.heated, *((one.lays,) if one.lays else ())) for one in recipe.steps
    )
    return (
        bool(recipe.steps)
        and [one.number for one in recipe.steps] == list(range(1, len(recipe.steps) + 1))
        and all(one.zone == zone and one.piece in recipe.pieces for zone, one in recipe.drawing.items())
        and zones >= {zone for piece in recipe.pieces.values() for zone in piece.every_zone}
        and zones >= {zone for found in of_steps for zone in found}
        and {*zones, *recipe.pieces} >= {check.partition(".")[0] for check in checks}
        and all(check.partition(".")[2] for check in checks)
    )


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


def _made(kind: Any, kept: Any) -> Any:
    """A value of that type from the plain one it was kept as; what is not said takes its default."""
    inside = get_args(kind)
    if isinstance(kind, UnionType):  # something or None
        return None if kept is None else _made(inside[0], kept)
    if get_origin(kind) is tuple:
        return tuple(_made(inside[0], one) for one in _is_a(list, kept))
    if get_origin(kind) is Mapping:
        return {name: _made(inside[1], one) for name, one in kept.items()}
    if get_origin(kind) is Literal:
        return inside[inside.index(kept)]
    if kind is Limits:
        nominal, low, high, stated = kept
        ends = _number(low, -inf), _number(high, inf)
        return Limits(_number(nominal), *ends, _is_a(bool, stated))
    if hasattr(kind, "_fields"):
        return kind(**{name: _made(_hints(kind)[name], one) for name, one in kept.items()})
    if kind is float:
        return _number(kept)
    if kind is int and not 0 <= _is_a(int, kept) <= _MOST:
        raise ValueError(f"{kept!r:.40} is no number of anything in a recipe")
    return kind(kept) if issubclass(kind, Enum) else _is_a(kind, kept)


def _number(kept: Any, otherwise: float | None = None) -> Any:
    """A size as it was kept; of an open limit that which it stands for."""
    if kept is None and otherwise is not None:
        return otherwise
    if isinstance(kept, bool) or not isinstance(kept, int | float) or not -_LARGEST <= kept <= _LARGEST:
        raise ValueError("what is no number stands for one")
    return kept


def _is_a(kind: type, kept: Any) -> Any:
    if type(kept) is not kind:
        raise TypeError(f"what is no {kind.__name__} stands for one")
    return kept
