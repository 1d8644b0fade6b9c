"""What is ahead: how long the rest takes at this pace, how far it comes by an hour, where it may rest."""

from __future__ import annotations

from functools import partial

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, Static

from coach.screens.page_content import page_in_window
from coach.screens.screen import TURNS, LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, one_line
from coach.telling.time_ahead import time_ahead_page

WAY_IN = {
    "key": "ctrl+w",
    "words": "Ahead",
    "told": "Tell how long the rest takes, by an hour",
}


class AheadScreen(LiveScreen):
    """The rest of the job in hours, by every step to come; an hour that is typed is reckoned with."""

    CSS_PATH = "ahead.tcss"
    NAME = "What is ahead"
    HELP_TEXT = """
        How long the rest of the job takes at your own pace, nine times in ten, what must be ready for it, and
        after which steps it may rest. Type the hour at which you put the tools down, such as 17:00, and Enter
        tells which step is surely done by then, which perhaps, and the last safe place to rest before it.

        Forging heats and the soaks that are said are counted; of cold work the time is not known.
    """
    BINDINGS = [
        key("enter", "reckon", "Reckon", "Reckon with the hour that is typed", first=False),
        key("escape,ctrl+w", "close", "Bench", "Go back"),
        *TURNS,
    ]

    _by = ""

    def compose(self) -> ComposeResult:
        prompt = Static(one_line("By what hour?", Ink.STRONG), id="prompt", markup=False)
        title = f"Ahead of {self.session.recipe.title}"
        yield from self.framed(
            title, Lines(can_focus=False), AnswerLine(), prompt, Box(placeholder="such as 17:00")
        )

    def fill(self) -> None:
        """Reckon it as the job stands now."""
        self._tell(self._by)

    def on_resize(self) -> None:
        self.fill()

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        self.action_reckon()

    def action_reckon(self) -> None:
        typed = self.query_one(Input).value.strip()
        if self._tell(typed):
            self._by = typed
            self.query_one(Input).value = ""

    def _tell(self, by: str) -> bool:
        """Show what is ahead; False where the hour cannot be read, or nothing is ahead."""
        ahead = self.attempt(partial(self.session.ahead, by))
        if ahead is None:
            return False
        page = time_ahead_page(ahead, self.shown)
        self.query_one(Lines).show(page_in_window(page, self.app.size.width))
        self.tell("" if by else "Type the hour at which you stop, and Enter.")
        return True
