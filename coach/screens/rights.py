"""The list of things to put right: what was noted for it, and the tests that did not pass."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Static
from textual.widgets.option_list import Option

from coach.screens.screen import LOOK_EVERY_S, JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.pick_list import PickList
from coach.screens.wording import one_line
from coach.telling.words import write

WAY_IN = {
    "from": ("bench",),
    "key": "plus,ctrl+b",
    "words": "To put right",
    "told": "Show what is to be put right",
    "show": False,
}


class RightsScreen(JobScreen):
    """Everything still to be put right; Enter takes the chosen one off."""

    CSS_PATH = "history.tcss"
    NAME = "To put right"
    HELP_TEXT = """
        What was noted during the work to be put right, and every test that did not pass, with its zone.
        Choose one with the arrows; Enter takes it off the list when it is right. A test that failed comes
        off by itself when it is passed. At the bench, Undo brings one back, and F6 twice writes a new one.
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "righted", "It is right", "Take the chosen one off the list"),
        key("escape,plus,ctrl+b", "close", "Bench", "Go back"),
    ]

    def compose(self) -> ComposeResult:
        yield Static(one_line(f"To put right on {self.session.recipe.title}"), id="title", markup=False)
        yield PickList(id="entries")
        yield AnswerLine()
        yield from self.rim()

    def on_mount(self) -> None:
        self._fill()
        self.query_one(PickList).focus()
        self.set_interval(LOOK_EVERY_S, self.catch_up)

    def _fill(self) -> None:
        found = self.session.standing().to_right
        picks = self.query_one(PickList)
        picks.clear_options()
        told = ((one.entry, write(one.words, self.shown)) for one in found)
        picks.add_options([Option(one_line(f"• {words}"), id=str(entry)) for entry, words in told])
        picks.highlighted = 0 if found else None
        if found:
            self.tell("Enter takes the chosen one off the list, for it is right now.")
        else:
            self.tell("Nothing is to be put right. F6 twice at the bench writes something down for it.")

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        if self.look(self.session.refresh):
            self._fill()

    def action_righted(self) -> None:
        option = self.query_one(PickList).highlighted_option
        if option is None or option.id is None:
            return
        number = int(option.id)
        answer = self.attempt(lambda: self.session.righted(number))
        if answer is not None:
            self._fill()
            self.tell(self.said(answer))

    def action_close(self) -> None:
        self.dismiss()
