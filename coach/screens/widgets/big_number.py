"""A number as large as a terminal can, which is read from two metres, and words about it."""

from __future__ import annotations

from itertools import chain, repeat

from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Digits, Static


class BigNumber(Vertical, can_focus=False):
    """A ruled title, a line above the number, the number, and lines below it."""

    def __init__(self, title: str = "", *, id: str, below: int = 1) -> None:
        self._digits = Digits("")
        self._words = [Static("", markup=False) for _ in range(1 + below)]
        above, *under = self._words
        super().__init__(above, self._digits, *under, id=id)
        self.border_title = title

    def show(self, above: Content, number: str, *below: Content) -> None:
        """Replace all of it; no number, and lines that are not given, leave their places empty."""
        self._digits.display = bool(number)
        self._digits.update(number)
        for place, words in zip(self._words, chain((above, *below), repeat(Content(""))), strict=False):
            place.update(words)
