"""A list to choose from of one row each, where a sign stands before the chosen one."""

from __future__ import annotations

from rich.segment import Segment
from textual.content import Content
from textual.strip import Strip

from coach.screens.widgets.pick_list import PickList, Thing

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
        """One row, with the sign where it is the chosen one."""
        strip = super().render_line(y)
        if not self.has_focus or self.chosen is None or self.scroll_offset.y + y != self.highlighted:
            return strip
        first = next(iter(strip), None)
        sign = Strip([Segment(SIGN, first.style if first is not None else None)], len(SIGN))
        return Strip.join([sign, strip.crop(len(SIGN))])
