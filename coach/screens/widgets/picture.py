"""A piece to scale in the terminal: as it is, solid, under what is wanted of it, in outline."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widget import Widget

from coach.screens.wording import QUIET, one_line
from coach.telling.writing import Shown

if TYPE_CHECKING:  # the bench opens sooner without what it may have no room to draw
    from coach.bench.session import Session
    from coach.drawing.cells import Line
    from coach.drawing.views import View

#: The look of each kind of span; the patterns of dots tell them apart without colour.
_STYLES = {
    "solid": "$foreground",
    "outline": "bold $accent",
    "steel": "$text-secondary",
    "mark": "$text-muted",
    "hole": "$text-muted",
    "figure": "$text-secondary",
}


class Picture(Widget, can_focus=False):
    """Plan view over side view, at one scale, as large as the place allows."""

    DEFAULT_CSS = """
    Picture {
        border-top: solid $secondary 50%;
        border-title-color: $text-secondary;
        border-title-style: bold;
        padding: 0 1;
        height: 1fr;
    }
    """

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._now: Sequence[View] = ()
        self._wanted: Sequence[View] = ()
        self._shown = Shown()

    def show(self, title: str, now: Sequence[View], wanted: Sequence[View], shown: Shown) -> None:
        """Take what to draw: what is there, what is wanted, either of them empty."""
        self.border_title = title
        self._now, self._wanted, self._shown = now, wanted, shown
        self.refresh()

    def show_piece(self, session: Session, piece: str) -> None:
        """A piece of a job as it is now, under what the step in hand wants of it."""
        from coach.drawing.job import views_now

        now = views_now(session.plan, piece, session.forms_now())
        wanted = views_now(session.plan, piece, session.forms_wanted())
        self.show(f"The {piece}", now, wanted, Shown(session.system))

    def render(self) -> Content:
        """The picture at the size there is."""
        if not (self._now or self._wanted):
            return one_line("Nothing to draw here yet.", QUIET)
        from coach.drawing.stacking import stacked

        width, height = self.content_size
        lines = stacked(self._now, self._wanted, width, height, shown=self._shown)
        return lines_content(lines)


def lines_content(lines: Sequence[Line]) -> Content:
    """Lines of spans as the screens show them."""
    told = [
        Content.assemble(*((span.text, _STYLES.get(span.ink, "")) for span in line)) if line else Content("")
        for line in lines
    ]
    return Content("\n").join(told)
