"""The line that says what the last entry means, large enough to be seen at arm's length."""

from __future__ import annotations

from textual.widgets import Static

from coach.screens.wording import joined, one_line, wrapped

#: Cells at both sides of it, as its style sheet has them.
_AROUND = 2


class AnswerLine(Static):
    """One sentence in a band of its own; its sign and its colour say whether it is good news."""

    def __init__(self, sentence: str = "") -> None:
        self._said = one_line(sentence)
        super().__init__(self._said, markup=False)

    def tell(self, sentence: str, *, bad: bool = False, asks: bool = False) -> None:
        """Show a sentence; `bad` for bad news or a refusal, `asks` for a question."""
        self.set_class(bad, "-bad")
        self.set_class(asks, "-asks")
        sign = "! " if bad else "? " if asks else ""
        self._said = one_line(f"{sign}{sentence}")
        self.on_resize()

    def on_resize(self) -> None:
        """Set it anew for the width of the window."""
        self.update(joined(wrapped(self._said, max(self.app.size.width - _AROUND, 1))))
