"""The same work on other pieces that are made alike: what is in hand next, without any file read."""

from __future__ import annotations

import re

from coach.operations.does import Does
from coach.recipe.model import Recipe
from coach.recipe.one_bar import lies_behind


def same_on_others(recipe: Recipe, done: int, *, inside: bool = False) -> dict[str, int]:
    """Where the work in hand is still to be done on the other pieces that are made alike, by their names.

    Those that lie inside the bar until another is cut off are none of them yet, unless `inside`.
    """
    here = recipe.steps[done]
    if not here.zones:
        return {}
    mine = recipe.piece_of(here.zones[0]).name
    kin: dict[str, int] = {}
    for at, step in enumerate(recipe.steps[done + 1 :], done + 1):
        name = recipe.piece_of(step.zones[0]).name if step.zones else mine
        alike = step.operation == here.operation and _but_for(step.title, name) == _but_for(here.title, mine)
        if name == mine or not alike:
            continue
        if inside or step.does(Does.MARKS_OUT) or lies_behind(recipe, name, here.number) is None:
            kin.setdefault(name, at)
    return kin


def _but_for(title: str, piece: str) -> str:
    return re.sub(rf"\b{re.escape(piece)}\b", "", title)
