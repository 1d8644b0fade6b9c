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
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise NotThawed(str(error)) from None
    return recipe


def hangs_together(recipe: Recipe) -> bool:
    """Whether its steps, its drawing and its pieces speak of zones and pieces that there are."""
    zones = recipe.drawing.keys()
    of_steps = ((*one.zones, *one.heated, *((one.lays,) if one.lays else ())) for one in recipe.steps)
    return (
        bool(recipe.steps)
        and [one.number for one in recipe.steps] == list(range(1, len(recipe.steps) + 1))
        and all(one.zone == zone and one.piece in recipe.pieces for zone, one in recipe.drawing.items())
        and zones >= {zone for piece in recipe.pieces.values() for zone in piece.zones}
        and zones >= {zone for found in of_steps for zone in found}
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
        return tuple(_made(inside[0], one) for one in kept)
    if get_origin(kind) is Mapping:
        return {name: _made(inside[1], one) for name, one in kept.items()}
    if get_origin(kind) is Literal:
        return inside[inside.index(kept)]
    if kind is Limits:
        nominal, low, high, stated = kept
        return Limits(nominal, -inf if low is None else low, inf if high is None else high, stated)
    if hasattr(kind, "_fields"):
        return kind(**{name: _made(_hints(kind)[name], one) for name, one in kept.items()})
    return kind(kept) if issubclass(kind, Enum) else kept
