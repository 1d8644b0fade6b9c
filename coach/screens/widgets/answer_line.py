"""The line that says what the last entry means, large enough to be seen at arm's length."""

from __future__ import annotations

from textual.widgets import Static

from coach.screens.wording import one_line


class AnswerLine(Static):
    """One sentence in a band of its own; its sign and its colour say whether it is good news."""

    def __init__(self, sentence: str = "") -> None:
        super().__init__(one_line(sentence), markup=False)

    def tell(self, sentence: str, *, bad: bool = False, asks: bool = False) -> None:
        """Show a sentence; `bad` for bad news or a refusal, `asks` for a question."""
        self.set_class(bad, "-bad")
        self.set_class(asks, "-asks")
        sign = "! " if bad else "? " if asks else ""
        self.update(one_line(f"{sign}{sentence}"))
