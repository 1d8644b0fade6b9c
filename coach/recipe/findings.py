"""Collects what is wrong with a recipe while it is read, each finding at its path in the tree."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from coach.quantities.words import Words, as_words
from coach.recipe import words
from coach.recipe.faults import Fault

Path = tuple[str | int, ...]
Place = tuple[int, int]  # line and column, from 1


class Offset(int):
    """How far inside a text something stands, in letters: the last part of a path."""


#: The last part of a path that means a name and not what stands under it.
AT_KEY = Offset(-1)


class Written(NamedTuple):
    """A text as it stands in the file, between quotes or over several lines."""

    raw: str
    meant: str
    place: Place

    def inside(self, offset: int) -> Place:
        """The place of the letter that is so far inside what is meant."""
        at = 1 if self.raw[:1] in ("'", '"') else 0
        for letter in self.meant[:offset]:
            at = self._behind(letter, at)
        while self.raw[at : at + 1].isspace():
            if self.meant[offset : offset + 1].isspace():
                break
            at += 1
        before = self.raw[:at]
        line, column = self.place
        if "\n" in before:
            return line + before.count("\n"), len(before) - before.rfind("\n")
        return line, column + len(before)

    def _behind(self, letter: str, at: int) -> int:
        """Where the raw text goes on behind a letter that is meant."""
        if letter.isspace():
            end = at
            while self.raw[end : end + 1].isspace():
                end += 1
            return end if "\n" in self.raw[at:end] else at + 1
        found = self.raw.find(letter, at)
        return at if found < 0 else found + 1


@dataclass(slots=True)
class Places:
    """Where everything in a recipe stands in its file."""

    values: dict[Path, Place] = field(default_factory=dict)
    keys: dict[Path, Place] = field(default_factory=dict)
    written: dict[Path, Written] = field(default_factory=dict)

    def of(self, path: Path, *, at_key: bool = False) -> Place:
        """The place of a path, or of the nearest thing around it that is there."""
        if path and isinstance(path[-1], Offset):
            text = self.written.get(path[:-1])
            if path[-1] == AT_KEY:
                return self.of(path[:-1], at_key=True)
            return text.inside(path[-1]) if text else self.of(path[:-1])
        for length in range(len(path), 0, -1):
            part = path[:length]
            if part in self.keys and (at_key or length < len(path)):
                return self.keys[part]
            if part in self.values:
                return self.values[part]
        return 1, 1


class Slip(NamedTuple):
    """One thing that is wrong."""

    path: Path
    message: Words  # one plain sentence without its full stop
    at_key: bool = False  # the key does not belong there
    missing: bool = False  # nothing is said where the path leads


@dataclass(slots=True)
class Findings:
    """Everything found wrong so far."""

    found: list[Slip] = field(default_factory=list)

    def add(self, path: Path, message: str | Words, *, at_key: bool = False, missing: bool = False) -> None:
        """Note one thing that is wrong."""
        words = as_words(message) if isinstance(message, str) else message
        self.found.append(Slip(path, words, at_key, missing))

    def add_unless_explained(self, others: Iterable[Slip]) -> None:
        """Take in others' findings but for those at or inside a path that has one here already."""
        mine = {one.path for one in self.found}
        self.found += [
            other
            for other in others
            if not any(other.path[:length] in mine for length in range(len(other.path) + 1))
        ]

    def faults(self, places: Places, source: str) -> Iterator[Fault]:
        """The findings as faults of a file.

        A name that is missing beside a misspelling of it is told once, as the misspelling.
        """
        strays = [one.path for one in self.found if one.at_key and one.path]
        told = [one for one in self.found if not (one.missing and any(_meant(one, path) for path in strays))]
        return (Fault(source, *places.of(one.path, at_key=one.at_key), one.message) for one in told)


def _meant(missing: Slip, stray: Path) -> bool:
    """Whether a stray key is a misspelling of the one that is missing."""
    if missing.path[:-1] != stray[:-1]:
        return False
    return words.nearest(str(stray[-1]), [str(missing.path[-1])]) is not None
