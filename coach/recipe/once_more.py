"""A step that is done once more: how it is written, and what it is not left without."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coach.operations import operation
from coach.recipe.model import Recipe, Step

#: What of a weld is written of the heat that closes it again.
_KEPT = ("zone", "colour", "temperature", "flux", "check")


def written_again(told: Mapping[str, Any], step: Step) -> dict[str, Any]:
    """How a step is written that is done once more: a weld's steel lies there, and is not laid on again."""
    todo = operation(step.operation)
    if todo.AGAIN_BY is None:
        return dict(told)
    again = operation(todo.AGAIN_BY)
    kept = {name: told[name] for name in _KEPT if name in told}
    kept["check"] = [one for one in kept.get("check", ()) if again.kind_of(one)]
    return {"do": todo.AGAIN_BY, "heats": str(todo.AGAIN_HEATS or step.heats)} | kept


def made_safe_by(recipe: Recipe, at: int, to: int) -> int | None:
    """The step to do again with one that may not be left without it, where none follows that does it.

    As the temper with its quench; both by their places, from 0, and `to` where the step is done again.
    """
    step, until = recipe.steps[at], operation(recipe.steps[at].operation).UNSAFE_UNTIL
    zones = {*step.zones}
    if until is None or any(one.does(until) and {*one.zones} & zones for one in recipe.steps[to:]):
        return None
    behind = recipe.steps[at + 1 :]
    return next((one.number - 1 for one in behind if one.does(until) and {*one.zones} & zones), None)
