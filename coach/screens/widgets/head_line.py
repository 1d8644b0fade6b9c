"""The line at the top of the bench: the step and its heat, what waits and the job."""

from __future__ import annotations

from textual.content import Content
from textual.widget import Widget

from coach.screens.wording import said

#: Cells between two texts on a line, and the least of the left one that is worth keeping.
_GAP, _LEAST_LEFT = 2, 10


class HeadLine(Widget, can_focus=False):
    """Texts in pairs, left and right, a line for each pair."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._words: tuple[str, ...] = ()

    def show(self, *words: str) -> None:
        """Take other texts: left and right of the first line, then of the second."""
        if words != self._words:
            self._words = words
            self.refresh()

    def render(self) -> Content:
        """The lines at the width there is; of the second line the right comes first."""
        width = max(self.content_size.width, 1)
        pairs = zip(self._words[::2], self._words[1::2], strict=True)
        return Content("\n").join(
            [apart(left, right, width, right_first=at > 0) for at, (left, right) in enumerate(pairs)]
        )


def apart(left: str, right: str, width: int, *, right_first: bool = False) -> Content:
    """Two texts at the two ends of a line; the first of them is the last to be cut short."""
    first, second = said(left), said(right)
    if right_first and width - second.cell_length - _GAP >= _LEAST_LEFT:
        first = first.truncate(width - second.cell_length - _GAP, ellipsis=True)
    room = width - first.cell_length - _GAP
    if room < _LEAST_LEFT - _GAP:
        return first.truncate(width, ellipsis=True, pad=True)
    second = second.truncate(room, ellipsis=True)
    return Content.assemble(first, " " * (width - first.cell_length - second.cell_length), second)
