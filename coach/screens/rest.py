"""Putting a job down: whether it may rest here, and why not."""

from __future__ import annotations

from textual.app import ComposeResult

from coach.log.status import JobStatus
from coach.screens.page_content import page_in_window
from coach.screens.screen import JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.row_list import SIGN, RowList
from coach.screens.wording import said
from coach.telling.page import Line, Page, Tone, page, section
from coach.telling.rest import care_section
from coach.telling.summary import summary
from coach.telling.words import write

WAY_IN = {
    "from": ("bench", "resume", "sheet"),
    "key": "f10",
    "words": "Rest",
    "told": "Put the job down, or close the coach",
    "group": "Step",
}

REST = "Rest, and close the coach"
INSIST = "Rest all the same (it is written in the log)"
CLOSE = "Close the coach without resting"
CLOSE_DONE = "Close the coach"
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
        self.picks = RowList[str](id="choices")
        words = Lines(can_focus=False)
        yield from self.framed(f"Put down {self.session.recipe.title}?", words, self.picks, AnswerLine())

    def on_mount(self) -> None:
        self.on_resize()
        self.picks.fill(self._choices(), lambda one: said(" " * len(SIGN) + one))
        self.tell("Choose with the arrows; Enter does it.")

    def on_resize(self) -> None:
        self.query_one(Lines).show(page_in_window(self._told(), self.app.size.width))

    def _told(self) -> Page:
        """Whether it may rest, what can hurt meanwhile, and what to know when it is resumed."""
        standing = self.session.standing()
        left = self.session.care_at_rest() if standing.state is not JobStatus.FINISHED else ()
        told = summary(standing, self.session.first_to_measure(), self.shown, blocked=False)
        return page(section("", [self._may_it()]), care_section(left), told)

    def _may_it(self) -> Line:
        standing = self.session.standing()
        if standing.state is JobStatus.FINISHED:
            return Line("Every step is done: there is nothing to rest from.", tone=Tone.STRONG)
        if not standing.rest_reason:
            return Line("The job may rest here.", tone=Tone.STRONG)
        why = write(standing.rest_reason, self.shown)
        return Line(f"It may not rest yet. {why}", mark="✗", tone=Tone.BAD)

    def _choices(self) -> list[str]:
        standing = self.session.standing()
        if standing.state is JobStatus.FINISHED:
            return [CLOSE_DONE, STAY]
        return [STAY, CLOSE, INSIST] if standing.rest_reason else [REST, STAY, CLOSE]

    def action_choose(self) -> None:
        chosen = self.picks.chosen
        if chosen == STAY:
            self.dismiss()
        elif chosen in (CLOSE, CLOSE_DONE) or self._rests(force=chosen == INSIST):
            self.app.exit()

    def _rests(self, *, force: bool) -> bool:
        """Enter that the job rests; whether it was taken."""
        return self.attempt(lambda: self.session.rest(force=force)) is not None
