"""A part of a screen whose text scrolls when it is longer than its place."""

from __future__ import annotations

from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static


class Lines(VerticalScroll):
    """Text alone; on most screens there is one, with what they tell."""

    def __init__(self, text: Content | None = None, *, id: str = "lines", can_focus: bool = True) -> None:
        self._words = Static(text or "", id="words", markup=False)
        super().__init__(self._words, id=id, can_focus=can_focus)

    def show(self, text: Content) -> None:
        """Replace the text."""
        self._words.update(text)

    @property
    def room(self) -> int:
        """The cells that a line may take."""
        return self.scrollable_content_region.width
