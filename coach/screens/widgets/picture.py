"""A drawing in the terminal: a piece to scale, or how something has gone."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widget import Widget

from coach.screens.wording import Ink, one_line
from coach.telling.harmless import harmless
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
    """Lines drawn as large as the place allows; views stand in it one over the other, at one scale."""

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self._draw: Callable[[int, int], Sequence[Line]] = lambda columns, rows: ()
        self._otherwise = ""

    def show(self, title: str, draw: Callable[[int, int], Sequence[Line]], otherwise: str = "") -> None:
        """Take what draws so many columns and rows, and what to say where it draws nothing."""
        self.border_title = Content.assemble(" ", one_line(title), " ")
        self._draw, self._otherwise = draw, otherwise
        self.refresh()

    def show_views(self, title: str, now: Sequence[View], wanted: Sequence[View], shown: Shown) -> None:
        """Show what is there, solid, and what is wanted, in outline, either of them empty."""
        from coach.drawing.braille import stacked

        otherwise = "" if now or wanted else "Nothing to draw here yet."
        self.show(title, lambda columns, rows: stacked(now, wanted, columns, rows, shown=shown), otherwise)

    def show_piece(self, session: Session, piece: str) -> None:
        """A piece of a job as it is now, under what the step in hand wants of it."""
        from coach.drawing.job import views_now
        from coach.telling.pictured import pictured_text

        drawn = session.pictured()
        now = views_now(session.plan, piece, drawn.forms)
        wanted = views_now(session.plan, piece, session.forms_wanted())
        told = pictured_text(drawn, session.recipe.pieces[piece].zones)
        title = f"The {piece}: {told}" if told else f"The {piece}"
        self.show_views(title, now, wanted, Shown(session.system))

    def render(self) -> Content:
        """The picture at the size there is."""
        lines = self._draw(*self.content_size)
        return lines_content(lines) if lines else one_line(self._otherwise, Ink.QUIET)


def lines_content(lines: Sequence[Line]) -> Content:
    """Lines of spans as the screens show them."""
    told = ([(harmless(span.text), _STYLES.get(span.ink, "")) for span in line] for line in lines)
    return Content("\n").join([Content.assemble(*spans) if spans else Content("") for spans in told])
