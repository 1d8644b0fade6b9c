"""The line that says what the last entry means, large enough to be seen at arm's length."""

from __future__ import annotations

from textual.widgets import Static

from coach.screens.wording import one_line


class AnswerLine(Static):
    """One sentence in a band of its own; its sign and its colour say whether it is good news."""

    DEFAULT_CSS = """
    AnswerLine {
        height: auto;
        min-height: 2;
        max-height: 3;
        padding: 0 1;
        content-align: left middle;
        text-style: bold;
        background: $panel;
    }
    AnswerLine.-bad { background: $error 35%; }
    AnswerLine.-asks { background: $warning 30%; }
    """

    def __init__(self, sentence: str = "") -> None:
        super().__init__(one_line(sentence), markup=False)

    def tell(self, sentence: str, *, bad: bool = False, asks: bool = False) -> None:
        """Show a sentence; `bad` for bad news or a refusal, `asks` for a question."""
        self.set_class(bad, "-bad")
        self.set_class(asks, "-asks")
        sign = "! " if bad else "? " if asks else ""
        self.update(one_line(f"{sign}{sentence}"))
