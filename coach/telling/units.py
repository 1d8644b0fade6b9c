"""The units that the sizes of a recipe or a job are told in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.bench.shop import system_of
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.recipe.model import Recipe


def shown_in(recipe: Recipe) -> Shown:
    """The units that a recipe's own sizes are told in."""
    return Shown(system_of(recipe))
