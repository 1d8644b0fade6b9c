"""Finds recipes in folders, by name or path."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from contextlib import suppress
from os.path import isfile, lexists
from pathlib import Path
from typing import NamedTuple

from coach.files import expand
from coach.quantities.errors import did_you_mean, odd_in
from coach.quantities.refusal import Refusal
from coach.quantities.words import Words
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Recipe

_ENDINGS = (".yaml", ".yml")


class NoRecipe(Refusal):
    """There is no such recipe; one sentence."""


class RecipeEntry(NamedTuple):
    """One recipe file of a folder."""

    name: str  # the file's name without its ending
    path: str  # its file
    title: str  # its title
    summary: str = ""  # what it makes
    duration: str = ""  # how long it takes
    steps: int = 0  # how many steps it has
    heats: int = 0  # how many heats they take
    level: str = ""  # who it is for
    faults: tuple[Words, ...] = ()  # empty when it can be used


def recipe_files(folders: Sequence[Path]) -> dict[str, Path]:
    """Every recipe file by its name; an earlier folder's wins over a later one's of the same name."""
    found: dict[str, Path] = {}
    for folder in folders:
        with suppress(OSError):  # a folder that may not be read is told of by `why_unread`
            for path in sorted(folder.iterdir()):
                if path.suffix in _ENDINGS and isfile(path):
                    found.setdefault(path.stem, path)
    return dict(sorted(found.items()))


def why_unread(folders: Sequence[Path]) -> str:
    """The folder that is there and cannot be looked through, with the reason; empty where there is none."""
    for folder in folders:
        try:
            os.listdir(folder)
        except FileNotFoundError:
            continue
        except OSError as error:
            return f"{folder} cannot be read ({error.strerror}): look at its permissions."
    return ""


def recipes_in(folders: Sequence[Path], heats_of: Callable[[Recipe], int]) -> tuple[RecipeEntry, ...]:
    """Every recipe with its title, or what is wrong with it; `heats_of` counts the heats of one."""
    return tuple(_entry(path, heats_of) for path in recipe_files(folders).values())


def _entry(path: Path, heats_of: Callable[[Recipe], int]) -> RecipeEntry:
    from coach.recipe.level import level_of
    from coach.recipe.reader import read_recipe_file

    try:
        recipe = read_recipe_file(path)
    except RecipeFaults as error:
        faults = tuple(fault.words for fault in error.faults)
        return RecipeEntry(path.stem, str(path), path.stem, faults=faults)
    return RecipeEntry(
        name=path.stem,
        path=str(path),
        title=recipe.title,
        summary=recipe.summary,
        duration=recipe.duration,
        steps=len(recipe.steps),
        heats=heats_of(recipe),
        level=level_of(recipe.steps).value,
    )


def find_recipe(wanted: str, folders: Sequence[Path]) -> Path:
    """The file that a name or a path means.

    Raises:
        NoRecipe: nothing of that name; names the nearest.
    """
    path = expand(wanted)
    if isfile(path):
        return path
    files = recipe_files(folders)
    name = wanted.strip().lower().removesuffix(".yaml").removesuffix(".yml")
    if name in files:
        return files[name]
    if lexists(path):
        raise NoRecipe(f"{wanted[-60:]!r} is no ordinary file, so it is no recipe: name another.")
    hint = why_unread(folders) or did_you_mean(name, files, f"the recipes are {', '.join(files) or 'none'}.")
    raise NoRecipe(f"There is no recipe file or recipe called {wanted[:60]!r}{odd_in(wanted)}: {hint}")
