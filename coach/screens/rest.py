"""Putting a job down: whether it may rest here, and why not."""

from __future__ import annotations

from textual.app import ComposeResult

from coach.log.status import JobStatus
from coach.screens.page_content import section_lines
from coach.screens.screen import JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.pick_list import PickList
from coach.screens.wording import Ink, joined, one_line, said
from coach.telling.rest import care_section
from coach.telling.summary import summary
from coach.telling.words import write

WAY_IN = {"key": "f10", "words": "Rest", "told": "Put the job down, or close the coach", "group": "Step"}

REST = "Rest, and close the coach"
INSIST = "Rest all the same (it is written in the log)"
CLOSE = "Close the coach without resting"
STAY = "Stay at the bench"


class RestScreen(JobScreen):
    """Rest and close, close without resting, or stay."""

    CSS_PATH = "rest.tcss"
    NAME = "Putting the job down"
    HELP_TEXT = """
        Some steps must not be left: a hardened edge waits for its temper, a tacked weld for its fire. The
        coach says so here. Resting writes in the log that the job was put down. Closing without resting
        loses nothing either: every entry was kept when it was made.
    """
    BINDINGS = [
        key("enter", "choose", "Do it", "Do what is chosen"),
        key("escape,f10", "close", "Stay", "Stay at the bench"),
    ]

    def compose(self) -> ComposeResult:
        self.picks = PickList[str](id="choices")
        words = Lines(can_focus=False)
        yield from self.framed(f"Put down {self.session.recipe.title}?", words, self.picks, AnswerLine())

    def on_mount(self) -> None:
        standing = self.session.standing()
        told = summary(standing, self.session.first_to_measure(), self.shown, blocked=False)
        lines = section_lines(told, self.app.size.width)
        if standing.state is JobStatus.FINISHED:
            first = one_line("Every step is done: there is nothing to rest from.", Ink.STRONG)
            choices = [STAY, CLOSE]
        elif not standing.rest_reason:
            first = one_line("The job may rest here.", Ink.STRONG)
            choices = [REST, STAY, CLOSE]
        else:
            first = one_line(f"✗ It may not rest yet. {write(standing.rest_reason, self.shown)}", Ink.BAD)
            choices = [STAY, CLOSE, INSIST]
        leaves = REST in choices or standing.rest_reason
        care = section_lines(care_section(self.session.care_at_rest() if leaves else ()), self.app.size.width)
        self.query_one(Lines).show(joined([first, *care, said(""), *lines]))
        self.picks.fill(choices, said)
        self.tell("Choose with the arrows; Enter does it.")

    def action_choose(self) -> None:
        chosen = self.picks.chosen
        if chosen == STAY:
            self.dismiss()
        elif chosen == CLOSE or self.attempt(lambda: self.session.rest(force=chosen == INSIST)) is not None:
            self.app.exit()
