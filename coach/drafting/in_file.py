"""Changes in the text of a recipe itself, so that its remarks, its layout and all else it says stay."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from coach.recipe.alike import Alike
from coach.recipe.findings import Findings, Path
from coach.recipe.keys import unit_of
from coach.recipe.spelling import Speller
from coach.recipe.tree import read_plain
from coach.recipe.writing import forms_of_bars, step_line


class Edit(NamedTuple):
    """A stretch of the text and what is to stand there."""

    start: int
    end: int
    text: str


class InFile:
    """A recipe's text, and where in it stands what it says when it is spelt out."""

    def __init__(self, text: str, source: str) -> None:
        plain = read_plain(text, source)
        speller = Speller(plain.tree, unit_of(plain.tree))
        self.text, self.spelt = text, speller.spell()
        self._places, self._origins = plain.places, speller.origins
        families = Alike.of(plain.tree, Findings()).families
        self.written = {row[name]: name for name, rows in families.items() for row in rows}
        self._starts = [0, *(found.end() for found in re.finditer("\n", text))]

    def at(self, path: Path, *, at_key: bool = False) -> int:
        """How far into the text it stands, in letters; with `at_key` the word that says what it is."""
        line, column = self._places.of(self._origins.of(path, at_key=at_key))
        return self._starts[line - 1] + column - 1

    def whole(self, path: Path) -> tuple[int, int] | None:
        """From where to where the text reaches that says it; None where that is no text of its own."""
        origin = self._origins.of(path)
        written = self._places.written.get(origin)
        if written is None:
            return None
        start = self._starts[written.place[0] - 1] + written.place[1] - 1
        return start, start + len(written.raw.rstrip())


def edited(text: str, edits: Iterable[Edit]) -> str:
    """The text with every stretch changed."""
    for edit in sorted(set(edits), reverse=True):
        text = text[: edit.start] + edit.text + text[edit.end :]
    return text


def with_steps(
    text: str, source: str, steps: Sequence[Mapping[str, Any]], places: Sequence[tuple[str, int] | None]
) -> str:
    """The text with the steps that have no place in it yet, each before the one that it comes before."""
    file = InFile(text, source)
    forms, drawing = forms_of_bars(file.spelt), file.spelt["drawing"]
    edits: list[Edit] = []
    new: list[str] = []
    done: set[str] = set()
    before = -1
    for step, place in zip(steps, places, strict=True):
        if place is None:
            line = step_line(step, drawing, forms)[0]  # type: ignore[arg-type]
            own, comma, rest = line.partition(",")
            line = f"{step['do']}: {file.written.get(own, own)}{comma}{rest}"
            if line not in done:  # of several made alike one step does for all
                new.append(line)
                done.add(line)
            continue
        row = dash = text.rfind("\n", 0, file.at(("steps", place[1], "do"), at_key=True)) + 1
        if new and row > before:  # not between those that one line says of several
            indent = text[dash : text.index("-", dash)]
            while text[:dash].rstrip("\n").rpartition("\n")[2].lstrip().startswith("#"):
                dash = text.rfind("\n", 0, dash - 1) + 1  # a remark stays with its step
            gap = "\n" if text[:dash].endswith("\n\n") else ""
            edits.append(Edit(dash, dash, "".join(f"{indent}- {one}\n{gap}" for one in new)))
            new = []
        before = row
    return edited(text, edits)
