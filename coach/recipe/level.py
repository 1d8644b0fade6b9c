"""What a recipe asks of a smith, by the work that is in it."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from coach.operations.does import Does
from coach.recipe.model import Step


class Level(StrEnum):
    """Who a recipe is for (judgement)."""

    FIRST = "first work"
    PRACTISED = "some practice"  # a hardening, whose heat is judged by eye
    SKILLED = "long practice"  # a weld, which cannot be tried twice


def level_of(steps: Iterable[Step]) -> Level:
    """By the hardest of its steps."""
    found = Level.FIRST
    for step in steps:
        if step.does(Does.JOINS) or step.does(Does.CLOSES):
            return Level.SKILLED
        if step.does(Does.QUENCHES):
            found = Level.PRACTISED
    return found
