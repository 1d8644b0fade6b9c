"""`coach recipes`: what there is to make."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import recipe_folders
from coach.cli.page import paragraph, table
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.words import counted

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

SUMMARY = "List the recipes that come with the coach and your own."
TAKES = ()


class Recipes(NamedTuple):
    """The recipes that come with the coach, and the user's own."""

    recipes: tuple[RecipeEntry, ...]


def run(asked: Asked) -> Reply[Recipes]:
    """List every recipe by its name; bad news when one of them has faults."""
    from coach.bench.heats_planned import heats_planned
    from coach.recipe.library import recipes_in, why_unread

    folders = recipe_folders()
    found = recipes_in(folders, heats_planned)
    rows = []
    for recipe in found:
        steps = counted(recipe.steps, "step")
        told = f"{recipe.title}: {steps}{f', {recipe.duration}' if recipe.duration else ''}"
        if recipe.faults:
            told = f"has {counted(len(recipe.faults), 'fault')}: `coach check {recipe.name}` names them"
        rows.append((recipe.name, told))
    lines = table(rows, indent="") or ["There is no recipe."]
    unread = why_unread(folders)
    lines += ["", *(paragraph(unread) if unread else [f"Your own recipes are looked for in {folders[0]}"])]
    bad_news = bool(unread) or any(recipe.faults for recipe in found)
    return reply(lines, Recipes(tuple(found)), bad_news=bad_news)
