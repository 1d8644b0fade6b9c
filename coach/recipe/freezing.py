"""A recipe's meaning as plain values: a job keeps it and opens again without reading the file anew."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf, isinf
from typing import Any

from coach.operations.does import HeatKind
from coach.operations.shape import Shape
from coach.quantities import Limits
from coach.quantities.refusal import Refusal
from coach.recipe.model import Loss, Piece, Recipe, Scale, Step, Stock, ZoneDrawing


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
        return Recipe(
            **{
                **kept,
                "pieces": {name: _piece(one) for name, one in kept["pieces"].items()},
                "drawing": {zone: _drawing(one) for zone, one in kept["drawing"].items()},
                "steps": tuple(_step(one) for one in kept["steps"]),
                "scale": Scale(**kept["scale"]),
                "tools": tuple(kept["tools"]),
                "text": text,
                "source": source,
            }
        )
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise NotThawed(str(error)) from None


def _limits(kept: Mapping[str, Any]) -> dict[str, Limits]:
    return {
        name: Limits(nominal, -inf if low is None else low, inf if high is None else high, stated)
        for name, (nominal, low, high, stated) in kept.items()
    }


def _shape(kept: Mapping[str, Any]) -> Shape:
    stations = tuple((at, width, thickness) for at, width, thickness in kept["stations"])
    return Shape(kept["kind"], dict(kept["options"]), stations)


def _piece(kept: Mapping[str, Any]) -> Piece:
    stock = Stock(**{**kept["stock"], "shape": _shape(kept["stock"]["shape"])})
    return Piece(**{**kept, "stock": stock, "zones": tuple(kept["zones"])})


def _drawing(kept: Mapping[str, Any]) -> ZoneDrawing:
    made = {
        "shape": _shape(kept["shape"]),
        "limits": _limits(kept["limits"]),
        "take_up": tuple(kept["take_up"]),
    }
    return ZoneDrawing(**{**kept, **made})


#: Of a step; the later ones are not in the jobs of the first versions.
_LISTS = ("zones", "heated", "cautions", "checks", "heat_names", "keep")


def _step(kept: Mapping[str, Any]) -> Step:
    made: dict[str, Any] = {name: tuple(kept[name]) for name in _LISTS if name in kept}
    made["shape"] = None if kept["shape"] is None else _shape(kept["shape"])
    made["heat_kind"] = HeatKind(kept["heat_kind"])
    made["targets"] = _limits(kept["targets"])
    made["loses"] = Loss(**kept["loses"])
    return Step(**{**kept, **made})
