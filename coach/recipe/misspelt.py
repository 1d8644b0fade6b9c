"""What else is wrong in a step whose operation is misspelt: what is read alike in a step of any operation.

What its words would mean of the operation that was likely meant is let be: one slip is one fault.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from typing import Final

from coach.forms import said
from coach.operations import also_called, operations
from coach.recipe import words
from coach.recipe.alike import Alike
from coach.recipe.findings import Findings, Offset, Path, Slip
from coach.recipe.keys import STEP
from coach.recipe.line import Line
from coach.recipe.spelling import Speller
from coach.recipe.spelt import Origins, Spelt
from coach.recipe.step_lines import StepLines
from coach.recipe.unknown_names import unknown_names

#: The parts of a line that mean the same behind every operation.
_OF_ANY: Final = re.compile(r"(?:at (?!least|most)|also hot |quench|loses |\d+ heats?\b|same heat|cold\b)")
_OF_ANY_KEYS: Final = ("at", "also_hot", "quench", "loses", "heats")


def besides_misspelt(tree: Mapping[str, object], speller: Speller) -> Iterator[Slip]:
    """The slips of names, heats and losses in those steps, by their paths in the file.

    `speller` has spelt the recipe out, and knows its zones.
    """
    rows, families = tree.get("steps"), Alike.of(tree, Findings()).families
    zones, zones_of = [*dict.fromkeys((*speller.forms, *families))], speller.zones_now.of
    for number, row in enumerate(rows if isinstance(rows, list) else ()):
        if not isinstance(row, dict):
            continue
        strays = [key for key in row if key not in STEP.keys]
        if len(strays) != 1 or not isinstance(text := row[strays[0]], str):
            continue
        meant = words.nearest(said(strays[0]), operations())
        if (
            meant is None
            or said(strays[0]) in also_called()
            or any(words.word(key) in operations() for key in row)
        ):
            continue
        path: Path = ("steps", number, strays[0])
        yield from unknown_names(text, path, zones, zones_of)
        yield from _alike_of_any(row, strays[0], meant, path, speller.unit, zones, zones_of)


def _alike_of_any(
    row: Mapping[str, object],
    stray: str,
    meant: str,
    path: Path,
    unit: str,
    zones: Collection[str],
    zones_of: Mapping[str, tuple[str, ...]],
) -> Iterator[Slip]:
    found, text = Findings(), str(row[stray])
    lines = [Line.of(text, path, found, unit)]
    lines += [
        Line.of_key(words.word(key), told, (*path[:-1], key), found, unit)
        for key, told in row.items()
        if key in _OF_ANY_KEYS and isinstance(told, str)
    ]
    StepLines(operations()[meant], Spelt(path[:-1], Origins(), found), zones_of, zones).read(lines)
    for slip in found.found:
        *inside, at = slip.path
        if not isinstance(at, Offset):
            continue
        if tuple(inside) != path or _OF_ANY.match(text[text.rfind(",", 0, max(at, 0)) + 1 :].lstrip()):
            yield slip
