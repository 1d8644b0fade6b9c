"""A titled part of a screen whose text scrolls when it is longer than its place."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static


class Panel(VerticalScroll, can_focus=False):
    """Text under a ruled title; page up and page down move it."""

    DEFAULT_CSS = """
    Panel {
        border-top: solid $secondary 50%;
        border-title-color: $text-secondary;
        border-title-style: bold;
        padding: 0 1;
        scrollbar-size-vertical: 1;
        height: auto;
    }
    """

    def __init__(self, title: str, *, id: str) -> None:
        super().__init__(id=id)
        self.border_title = title
        self._words = Static("", markup=False)

    def compose(self) -> ComposeResult:
        yield self._words

    def show(self, text: Content) -> None:
        """Replace the text."""
        self._words.update(text)
