"""The line at the top of the bench: the step and its heat, what waits and the job."""

from __future__ import annotations

from textual.content import Content
from textual.widget import Widget

from coach.screens.widgets.face import shortened
from coach.screens.wording import said

#: Cells between two texts on a line, and the least of the left one that is worth keeping.
_GAP, _LEAST_LEFT = 2, 10
#: What the right text begins with where something is to be put right.
_FIX = "fix "


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


def _whole_ends(text: str, width: int) -> str:
    """A text of three parts of which the middle one gives way: the step's title, not its heat."""
    number, *titles, heat = text.split("  ")
    room = width - len(number) - len(heat) - 2 * _GAP
    if len(text) <= width or len(titles) != 1 or room < _LEAST_LEFT:
        return text
    return "  ".join((number, shortened(titles[0], room), heat))


def apart(left: str, right: str, width: int, *, right_first: bool = False) -> Content:
    """Two texts at the two ends of a line; the first of them is the last to be cut short.

    >>> apart("9/12  Harden the edge  heat 1 of 1", "fix 1  Cold chisel", 38).plain
    '9/12  Harden the…  heat 1 of 1   fix 1'
    """
    first, second = said(left if right_first else _whole_ends(left, width)), said(right)
    if right_first and width - second.cell_length - _GAP >= _LEAST_LEFT:
        first = said(shortened(left, width - second.cell_length - _GAP))
        first = first.truncate(width - second.cell_length - _GAP, ellipsis=True)
    if not right_first and right.startswith(_FIX):  # that stays, and the step's title is shortened for it
        count = said(right.partition("  ")[0]).cell_length
        if first.cell_length + _GAP + count > width:
            first = said(_whole_ends(left, width - count - _GAP))
    room = width - first.cell_length - _GAP
    if room < second.cell_length and not right_first:  # a name is left out rather than cut
        second = said(right.partition("  ")[0] if "  " in right else "")
    if room < second.cell_length:
        return first.truncate(width, ellipsis=True, pad=True)
    return Content.assemble(first, " " * (width - first.cell_length - second.cell_length), second)
