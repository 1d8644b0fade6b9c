"""What one key of a recipe file may say: a text, a list, names and values, or a part with keys of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Literal, NamedTuple, TypeAlias

from coach.quantities import SizeError
from coach.recipe import words

#: Given a text, its key and the file's unit; raises SizeError for what it refuses.
Reader: TypeAlias = Callable[[str, str, str], object]
Schema: TypeAlias = "Mapping[str, object] | None"


class Text(NamedTuple):
    """One text of at least a letter."""

    longest: int | None = None
    several: bool = False  # whether it may be a list of such texts
    read: Reader | None = None
    word: str = ""  # what sort of word of the trade it must be, whatever its blanks, hyphens and capitals
    known: tuple[str, ...] = ()  # all of them
    schema: Schema = None  # what an editor is told, where that is not the text and its length

    def trouble(self, text: str, key: str, unit: str) -> tuple[Literal["size", "word"], str] | None:
        """Which of the reader and the words refuses a text, `size` or `word`, and why; None for neither."""
        if self.read is not None:
            try:
                self.read(text.strip(), key, unit)
            except SizeError as error:
                return "size", words.clause(error)
        if self.known and words.word(text) not in {one.lower() for one in self.known}:
            hint = words.hint(words.word(text), self.known)
            return "word", f"{words.echo(text)} is no {self.word}: {hint}"
        return None

    def takes(self, value: object, key: str, unit: str) -> bool:
        """Whether a value of the tree is sound here."""
        if self.several and isinstance(value, list):
            return len(value) <= MOST_TEXTS and all(self._takes_one(one, key, unit) for one in value)
        return self._takes_one(value, key, unit)

    def _takes_one(self, text: object, key: str, unit: str) -> bool:
        return (
            isinstance(text, str)
            and len(text) >= 1
            and (self.longest is None or len(text) <= self.longest)
            and self.trouble(text, key, unit) is None
        )


MOST_TEXTS = 100
"""The longest list of texts."""
LONGEST_LINE = 400
"""The longest line of sizes, in letters."""


class Inside(NamedTuple):
    """A part; one word, or any line, may stand in its place."""

    part: Part
    word: str = ""
    why: str = ""  # what to write, for another word
    or_line: bool = False

    def takes(self, value: object, key: str, unit: str) -> bool:
        """See Text."""
        if self.or_line and isinstance(value, str):
            return 0 < len(value) <= LONGEST_LINE
        if self.word and isinstance(value, str):
            return words.word(value) == self.word
        return self.part.takes(value, unit)


class Named(NamedTuple):
    """Parts by the smith's own names; a line may stand in the place of each."""

    part: Part
    or_line: bool = False

    def takes(self, value: object, key: str, unit: str) -> bool:
        """See Text."""
        one = Inside(self.part, or_line=self.or_line)
        return isinstance(value, dict) and all(one.takes(told, key, unit) for told in value.values())


class Listed(NamedTuple):
    """Parts in their order."""

    part: Part

    def takes(self, value: object, key: str, unit: str) -> bool:
        """See Text."""
        return isinstance(value, list) and all(self.part.takes(one, unit) for one in value)


Says: TypeAlias = Text | Inside | Named | Listed


class Key(NamedTuple):
    """A name that belongs in a part."""

    name: str
    says: Says
    told: str  # for people
    needed: bool = False


class Part:
    """A part of a recipe: only the keys listed belong in it."""

    def __init__(self, name: str, told: str, *keys: Key) -> None:
        self.name = name
        self.told = told
        self.keys = {key.name: key for key in keys}

    @cached_property
    def _needed(self) -> frozenset[str]:
        return frozenset(key.name for key in self.keys.values() if key.needed)

    def takes(self, value: object, unit: str) -> bool:
        """Whether a value of the tree is sound as this part."""
        return (
            isinstance(value, dict)
            and value.keys() <= self.keys.keys()
            and self._needed <= value.keys()
            and all(self.keys[name].says.takes(said, name, unit) for name, said in value.items())
        )
