"""A list to choose from, where a sign stands before the first row of the chosen one."""

from __future__ import annotations

from collections.abc import Iterable

from rich.segment import Segment
from textual.content import Content
from textual.strip import Strip

from coach.screens.widgets.pick_list import PickList, Thing
from coach.screens.wording import joined, wrapped

#: What is left free for it at the beginning of each row.
SIGN = "▸ "


class RowList(PickList[Thing]):
    """Its chosen row has a sign while the list has the focus, so that colour is not the only one."""

    def tell(self, thing: Thing, row: Content) -> None:
        """Word the row of one thing anew, where it is listed."""
        for at, one in enumerate(self._things):
            if one is thing:
                self.replace_option_prompt_at_index(at, row)

    def render_line(self, y: int) -> Strip:
        """One row, with the sign where it is the first of the chosen one."""
        strip, at = super().render_line(y), self.scroll_offset.y + y
        if not self.has_focus or self.chosen is None or at != self._index_to_line.get(self.highlighted or 0):
            return strip
        first = next(iter(strip), None)
        sign = Strip([Segment(SIGN, first.style if first is not None else None)], len(SIGN))
        return Strip.join([sign, strip.crop(len(SIGN))])


def beside_sign(lines: Iterable[Content], width: int) -> Content:
    r"""Lines told of one thing, each set in so many cells with the place of the sign left free before it.

    >>> beside_sign([Content("1 Upset it"), Content("no extra heat")], 12).plain
    '  1 Upset it\n  no extra\n  heat'
    """
    room, blank = max(width - len(SIGN), 8), " " * len(SIGN)
    return joined(Content.assemble(blank, part) for line in lines for part in wrapped(line, room))
