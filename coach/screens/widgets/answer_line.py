"""The line that says what the last entry means, large enough to be seen at arm's length."""

from __future__ import annotations

import re

from textual.content import Content
from textual.widgets import Static

from coach.screens.wording import joined, one_line, wrapped

#: Cells at both sides of it, as its style sheet has them.
_AROUND = 2
#: Rows that it has at most, as its style sheet says.
_ROWS = 3
#: Rows that a long answer has at most, in windows of so many rows and more.
_LONG = ((24, 6), (20, 4))
#: The sentence of a question that says what its keys do, and all behind it.
_KEYS = re.compile(r"(?<=[.?!] )[^.?!]*\b(?:Enter|Esc)\b.*")


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

    @property
    def said(self) -> str:
        """The whole of what stands there, however much of it there is room for."""
        return self._said.plain

    def on_resize(self) -> None:
        """Set it anew for the width of the window."""
        width, height = max(self.app.size.width - _AROUND, 1), self.app.size.height
        asks = self.has_class("-asks")
        told = in_rows(self._said.plain, width) if asks else self._said.plain
        rows = next((most for tall, most in _LONG if height >= tall and not asks), _ROWS)
        self.styles.max_height = rows
        self.update(joined(_cut(wrapped(one_line(told), width), rows, width)))


def _cut(lines: list[Content], rows: int, width: int) -> list[Content]:
    """Lines of which the last says by its sign that more was told than there is room for."""
    if len(lines) <= rows:
        return lines
    last = lines[rows - 1].plain.rstrip()
    if len(last) > width - 2:  # no word is cut
        last = last[: width - 2].rpartition(" ")[0] or last[: width - 2]
    return [*lines[: rows - 1], one_line(f"{last} …")]


def in_rows(question: str, width: int) -> str:
    """A question of no more rows than there are: what its keys do stands whole, and what is before gives way.

    >>> in_rows("? The side is out; the length was never measured. Enter goes on, Esc does not.", 20)
    '? The side is out; the … Enter goes on, Esc does not.'
    """
    keys = _KEYS.search(question)
    if keys is None or len(wrapped(one_line(question), width)) <= _ROWS:
        return question
    before, does = question[: keys.start()].split(), question[keys.start() :]
    while before and len(wrapped(one_line(f"{' '.join(before)} … {does}"), width)) > _ROWS:
        before.pop()
    return " ".join((*before, "…", does))
