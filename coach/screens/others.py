"""The other jobs at this fire: which is in it and since when, which is out; one key goes to its bench."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content

from coach.bench.across import JobAhead, across
from coach.quantities.words import NOTHING
from coach.screens.screen import LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.row_list import RowList, beside_sign
from coach.screens.wording import Ink, one_line
from coach.telling.across import NONE, now_text
from coach.telling.figures import write_figure
from coach.telling.words import write

WAY_IN = {
    "from": ("bench", "resume"),
    "key": "ctrl+v",
    "words": "Other jobs",
    "told": "Go to another job at this fire",
    "group": "Go",
}


#: The cells beside the list and its scroll bar.
_AROUND = 3


class OthersScreen(LiveScreen):
    """Every other job in hand, that first which is to be taken on next."""

    CSS_PATH = "others.tcss"
    NAME = "Other jobs"
    HELP_TEXT = """
        The other jobs in hand, that first which is to be taken on next: what must not wait, then what lies
        in the fire, the longest in it first, what is out of it, what goes to the fire next, and last what is
        worked cold. Enter goes to the bench of the chosen one. Of this job nothing is lost: it stands as it
        stood, and the same key leads back to it.
    """
    BINDINGS = [
        key("enter", "choose", "Go there", "Go to the bench of the chosen job"),
        key("escape,ctrl+v", "close", "Bench", "Go back"),
    ]

    def compose(self) -> ComposeResult:
        self.picks = RowList[JobAhead](id="jobs")
        title = f"Other jobs beside {self.session.recipe.title}"
        yield from self.framed(title, self.picks, Lines(can_focus=False), AnswerLine())

    def fill(self) -> None:
        shop = self.coach.shop
        found = self.attempt(lambda: across(shop.jobs(), shop.open, but=self.session.job)) or ()
        self.picks.fill(found, self._row, self.picks.highlighted or 0)
        self.picks.display = bool(found)
        why = found[0].why if found else NOTHING
        self.query_one(Lines).show(one_line(write(why, self.shown), Ink.BAD) if why else Content(""))
        self.tell("Enter goes to its bench; Esc stays here." if found else NONE)

    def on_resize(self) -> None:
        """What is longer than the window goes on below itself."""
        self.fill()

    def _row(self, one: JobAhead) -> Content:
        heat = f", heats to {write_figure(one.heat, self.shown)}" if one.heat is not None else ""
        step = f"step {one.step}/{one.steps}, {one.step_title}{heat}"
        told = f"{one.job}, {one.title}: {now_text(one)} · {step}"
        return beside_sign([one_line(told)], self.app.size.width - _AROUND)

    def action_choose(self) -> None:
        chosen = self.picks.chosen
        if chosen is not None and (session := self.attempt(lambda: self.coach.shop.open(chosen.job))):
            self.coach.in_hand = session
            self.coach.go("bench", session)
