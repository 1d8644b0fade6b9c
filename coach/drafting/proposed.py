"""A step of a recipe that is being proposed, as it stands in the file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.recipe import writing

#: What is this much more or less than its bar is worked (judgement).
SAME_SHARE: Final = 0.03
#: How a bar is drawn, and how it is spread.
DRAW: Final = "Square blows, a quarter turn between them, from the end to the mark; smooth it with the face."
SPREAD: Final = "The peen along the bar, from the middle to both edges, both faces alike."


class Proposed(NamedTuple):
    """One step of a recipe that is being proposed."""

    operation: str
    line: str  # behind it
    keys: tuple[tuple[str, str], ...] = ()  # below it
    remark: str = ""  # why, as a remark before it

    def lines(self) -> Iterator[str]:
        """As it stands in the file."""
        if self.remark:
            yield f"  # {self.remark}"
        yield f"  - {self.operation}: {writing.scalar(self.line)}"
        for key, text in self.keys:
            yield f"    {key}: {writing.scalar(text)}"


def how_to_draw(spreads: bool) -> str:
    """How a bar is brought to a section, wider than it is or not."""
    return SPREAD if spreads else DRAW
