"""The picture in full: the piece at this step, its stock with the marks, and the finished tool."""

from __future__ import annotations

from itertools import product

from textual.app import ComposeResult

from coach.drawing.job import finished_views, host_pieces, stock_views
from coach.screens.screen import LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.picture import Picture

WAY_IN = {"key": "ctrl+d", "words": "Picture", "told": "Show the piece to scale"}

_STEP, _STOCK, _FINISHED = "at this step", "its stock", "the finished tool"


class PictureScreen(LiveScreen):
    """One picture at a time; the arrows go through them."""

    CSS_PATH = "history.tcss"
    NAME = "The picture"
    HELP_TEXT = """
        The piece to scale, seen on its width and below that on its thickness. Solid is what it is believed
        to be now; the outline is what the step in hand wants of it; hard steel has a pattern of its own; a
        hole is left open, and dashed where metal is before it. The arrows go on to the bar with its marks
        and to the finished tool, and through the pieces.
    """
    BINDINGS = [
        key("down,right", "turn(1)", "Next", "The next picture"),
        key("up,left", "turn(-1)", "Before", "The picture before"),
        key("escape,ctrl+d", "close", "Bench", "Go back"),
    ]

    _at = 0

    def compose(self) -> ComposeResult:
        yield from self.framed(f"Pictures of {self.session.recipe.title}", Picture(id="full"), AnswerLine())

    def _pictures(self) -> list[tuple[str, str]]:
        """What there is to see: a kind of picture and its piece."""
        first = self.session.piece_in_hand()
        pieces = [first, *(name for name in self.session.recipe.pieces if name != first)]
        return [*product((_STEP, _STOCK), pieces), *product((_FINISHED,), host_pieces(self.session.plan))]

    def fill(self) -> None:
        pictures = self._pictures()
        kind, piece = pictures[self._at % len(pictures)]
        plan, shown = self.session.plan, self.shown
        picture = self.query_one(Picture)
        if kind == _STEP:
            picture.show_piece(self.session, piece)
        else:
            views = stock_views(plan, piece) if kind == _STOCK else finished_views(plan, piece)
            picture.show_views(f"The {piece}: {kind}", views, (), shown)
        self.tell(f"The {piece}, {kind}: {self._at % len(pictures) + 1} of {len(pictures)}.")

    def action_turn(self, by: int) -> None:
        self._at += by
        self.fill()
