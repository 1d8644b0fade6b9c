"""Reads on with the name that a misspelt one is likely to mean, so that one slip is told as one fault."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, TypeVar

from coach.recipe import words
from coach.recipe.findings import Path, Places
from coach.recipe.tree import Plain

_Told = TypeVar("_Told")
#: The names of a file's head and of a piece that others are read by.
_OF_HEAD: Final = ("pieces", "steps", "units")
_OF_PIECE: Final = ("metal", "bar", "zones", "size")


def as_meant(plain: Plain) -> Plain:
    """The recipe with what stands under a misspelt name of its head or of a piece under the right one.

    The slip itself is told of the recipe as it is written.
    """
    tree, places = dict(plain.tree), plain.places
    for stray, name in _misspelt(tree, _OF_HEAD):
        tree[name] = tree.pop(stray)
        places = _found_as(places, (stray,), (name,))
    pieces = tree.get("pieces")
    if isinstance(pieces, dict):
        tree["pieces"] = pieces = dict(pieces)
        for piece, told in pieces.items():
            if isinstance(told, dict):
                pieces[piece] = meant = dict(told)
                for stray, name in _misspelt(told, _OF_PIECE):
                    meant[name] = meant.pop(stray)
                    places = _found_as(places, ("pieces", piece, stray), ("pieces", piece, name))
    return Plain(tree, places, plain.findings)


def _misspelt(told: Mapping[str, object], names: tuple[str, ...]) -> list[tuple[str, str]]:
    """The names that do not belong there, each with the missing one that is near it."""
    missing = [name for name in names if name not in told]
    near = ((stray, words.nearest(stray, missing)) for stray in told if stray not in names)
    return [(stray, name) for stray, name in near if name is not None]


def _found_as(places: Places, path: Path, other: Path) -> Places:
    """The places with what is written under one path found under another as well."""
    return Places(
        _both(places.values, path, other), _both(places.keys, path, other), _both(places.written, path, other)
    )


def _both(told: dict[Path, _Told], path: Path, other: Path) -> dict[Path, _Told]:
    deeper = {one: where for one, where in told.items() if one[: len(path)] == path}
    return told | {(*other, *one[len(path) :]): where for one, where in deeper.items()}
