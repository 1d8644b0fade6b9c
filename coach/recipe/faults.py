"""What is wrong with a recipe: every fault with its file, line and column."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from coach.quantities.refusal import Refusal
from coach.quantities.units import System
from coach.quantities.words import Words, as_words, run_on, say


class Fault(NamedTuple):
    """One thing that is wrong in one place of a recipe file."""

    source: str  # the file's name
    line: int  # from 1
    column: int  # from 1
    message: Words  # one plain sentence

    @property
    def words(self) -> Words:
        """The fault behind its place."""
        return say("{}:{}:{}: {}", self.source, self.line, self.column, self.message)

    def __str__(self) -> str:
        return str(self.words)


class RecipeFaults(Refusal):
    """A recipe that is refused, with every fault found in it, once and in the order of the file."""

    BAD_NEWS = True

    def __init__(self, faults: Iterable[Fault], system: System | None = None) -> None:
        """The faults, with the units that the file's own sizes are written in, where that can be told."""
        self.system = system
        self.faults = tuple(
            sorted(set(faults), key=lambda one: (one.source, one.line, one.column, str(one.message)))
        )
        super().__init__(run_on((fault.words for fault in self.faults), "\n"))

    def details(self) -> Mapping[str, object]:
        """The faults one by one."""
        return {"faults": self.faults}


def refused(source: str, message: str, line: int = 1, column: int = 1) -> RecipeFaults:
    """The refusal of a file that cannot be read on from that place."""
    return RecipeFaults([Fault(source, line, column, as_words(message))])
