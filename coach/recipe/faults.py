"""What is wrong with a recipe: every fault with its file, line and column."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from coach.quantities.refusal import Refusal


@dataclass(frozen=True, order=True, slots=True)
class Fault:
    """One thing that is wrong in one place of a recipe file."""

    source: str  # the file's name
    line: int  # from 1
    column: int  # from 1
    message: str  # one plain sentence

    def __str__(self) -> str:
        return f"{self.source}:{self.line}:{self.column}: {self.message}"


class RecipeFaults(Refusal):
    """A recipe that is refused, with every fault found in it, in the order of the file."""

    BAD_NEWS = True

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(sorted(faults))
        super().__init__("\n".join(str(fault) for fault in self.faults))

    def details(self) -> Mapping[str, object]:
        """The faults one by one."""
        return {"faults": self.faults}
