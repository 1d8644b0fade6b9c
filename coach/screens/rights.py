"""The list of things to put right: what was noted for it, and the tests that did not pass."""

from __future__ import annotations

from textual.app import ComposeResult

from coach.bench.righting import Right
from coach.screens.screen import LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.row_list import RowList, beside_sign
from coach.screens.wording import one_line
from coach.telling.words import write

WAY_IN = {
    "from": ("bench", "sheet"),
    "key": "plus,ctrl+b",
    "words": "To put right",
    "told": "Show what is to be put right",
}

#: The cells beside the list and its scroll bar.
_AROUND = 3


class RightsScreen(LiveScreen):
    """Everything still to be put right; Enter takes the chosen one off."""

    CSS_PATH = "history.tcss"
    NAME = "To put right"
    HELP_TEXT = """
        What was noted during the work to be put right, and every test that did not pass, with its zone.
        Choose one with the arrows; Enter takes it off the list when it is right. A test that failed comes
        off by itself when it is passed. At the bench, Undo brings one back, and F6 twice writes a new one.
    """
    BINDINGS = [
        key("enter", "righted", "It is right", "Take the chosen one off the list", group="Write"),
        key("escape,plus,ctrl+b", "close", "Back", "Go back"),
    ]

    def compose(self) -> ComposeResult:
        self.picks = RowList[Right](id="entries")
        yield from self.framed(f"To put right on {self.session.recipe.title}", self.picks, AnswerLine())

    def fill(self) -> None:
        found = self.session.standing().to_right
        room, at = self.app.size.width - _AROUND, self.picks.highlighted or 0
        self.picks.fill(found, lambda one: beside_sign([one_line(write(one.words, self.shown))], room), at)
        if found:
            self.tell("Enter takes the chosen one off the list, for it is right now.")
        else:
            self.tell("Nothing is to be put right. F6 twice at the bench writes something down for it.")

    def on_resize(self) -> None:
        """What is longer than the window goes on below itself."""
        self.fill()

    def action_righted(self) -> None:
        right = self.picks.chosen
        if right is not None:
            self.enter(lambda: self.session.righted(right.entry))
