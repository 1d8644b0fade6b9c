"""A place in a recipe's plain tree, read as what it should be; what it is not becomes a finding."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from coach.quantities import SizeError
from coach.quantities.words import Words
from coach.recipe import words
from coach.recipe.findings import Findings, Path

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Node:
    """One value of the tree; where nothing is said it is None and false, and reads without a finding."""

    value: object
    path: Path
    findings: Findings
    unit: str = "mm"  # of bare numbers

    def __bool__(self) -> bool:
        return self.value is not None

    @property
    def is_text(self) -> bool:
        """Whether one text stands here, be it empty."""
        return isinstance(self.value, str)

    @property
    def is_list(self) -> bool:
        """Whether a list stands here."""
        return isinstance(self.value, list)

    @property
    def is_names(self) -> bool:
        """Whether names with values stand here."""
        return isinstance(self.value, dict)

    def fault(self, message: str | Words) -> None:
        """Note that what stands here is wrong."""
        self.findings.add(self.path, message)

    def stray(self, message: str) -> None:
        """Note that the name of this does not belong where it stands."""
        self.findings.add(self.path, message, at_key=True)

    def missing(self, message: str) -> None:
        """Note that something should be said here."""
        self.findings.add(self.path, message, missing=True)

    def _inside(self, step: str | int, value: object) -> Node:
        return Node(value, (*self.path, step), self.findings, self.unit)

    def get(self, name: str) -> Node:
        """What a mapping says under a key."""
        return self._inside(name, self.value.get(name) if isinstance(self.value, dict) else None)

    def items(self) -> Iterator[tuple[str, Node]]:
        """The keys of a mapping and what they say."""
        if isinstance(self.value, dict):
            for name, value in self.value.items():
                yield str(name), self._inside(str(name), value)
        elif self:
            self.fault("names with their values belong here, such as length: 30")

    def rows(self) -> list[Node]:
        """The entries of a list; what is no list is one entry."""
        if isinstance(self.value, list):
            return [self._inside(index, value) for index, value in enumerate(self.value)]
        return [self] if self else []

    def text(self) -> str:
        """The text here; empty when there is none."""
        if isinstance(self.value, str):
            return self.value.strip()
        if self:
            self.fault("one text belongs here, not a list or names with values")
        return ""

    def line(self) -> str:
        """The text here on one line."""
        return " ".join(self.text().split())

    def texts(self) -> list[str]:
        """One text or a list of them, without the empty ones."""
        return [text for text in (row.text() for row in self.rows()) if text]

    def size(self, read: Callable[[str], T]) -> T | None:
        """What a reader of sizes makes of the text; None, with a finding, where it refuses."""
        text = self.text()
        if not self.is_text:
            return None
        try:
            return read(text)
        except SizeError as error:
            self.fault(words.clause(error))
            return None

    def in_unit(self, read: Callable[[str, str], T]) -> T | None:
        """The same of a reader that is told the unit of bare numbers."""
        return self.size(lambda text: read(text, self.unit))

    def word(self, kind: str, known: Iterable[str]) -> str | None:
        """One of the known trade words.

        For another one a finding, and the nearest right word so that what follows is read as it was meant.
        """
        text = self.text()
        if not self.is_text:
            return None
        by_letters = {one.lower(): one for one in known}
        asked = words.word(text)
        if asked in by_letters:
            return by_letters[asked]
        self.fault(f"{words.echo(text)} is no {kind}: {words.hint(asked, by_letters.values())}")
        return words.nearest(asked, by_letters.values())

    def yes(self) -> bool | None:
        """Yes or no; None where nothing is said."""
        said = self.word("answer", (*words.YES, *words.NO))
        return None if said is None else said in words.YES
