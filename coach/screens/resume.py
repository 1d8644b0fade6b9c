"""Beginning or resuming a job: what holds all day; or where it stands, what comes next, what to measure."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from textual import events
from textual.app import ComposeResult
from textual.content import Content

from coach.bench.care import SaidOnce
from coach.bench.session import Session
from coach.log.status import JobStatus
from coach.screens.page_content import page_content
from coach.screens.places import keys_from, load
from coach.screens.screen import JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.telling.care import care_sections
from coach.telling.clock import ago_words
from coach.telling.page import page
from coach.telling.summary import summary

#: The cells at both sides of the text with its scroll bar, and the widest that a line is read with ease.
_AROUND, _WIDEST = 3, 110

_USUAL_TELLING = "Enter goes to the bench."
_OF_A_SIZE = "0123456789.,/"


class ResumeScreen(JobScreen):
    """What to know before the fire is lit, or lit again."""

    CSS_PATH = "resume.tcss"
    OVER = False
    TAKES_NUMBERS = True
    NAME = "Resuming a job"
    HELP_TEXT = """
        This is where the job was put down: first what is to be put right and what was noted, each with its
        day; then what to measure before the first heat; then whether the metal is enough. Cold metal that
        has lain a week is the best there is to measure: do it now, with the calliper.

        As a job begins, and before its first fire, it says once what holds all day: who is about, eyes and
        ears, salvage, tools and wheels, carbon monoxide.

        Enter goes to the bench.
    """
    BINDINGS = [
        key("enter", "go_on", "To the bench", "Go to the bench", first=False),
        *keys_from("resume"),
        key("escape", "leave", "Shop", "Go back to the shop"),
    ]

    def __init__(self, session: Session, notice: str = "", care: Sequence[SaidOnce] = ()) -> None:
        super().__init__(session)
        self._notice = f"{notice} Enter goes on." if care else notice
        self._care = care  # what holds all day, where that is to be said instead
        self._typed = ""  # a size typed before the bench was there to take it
        self._turned = False
        self._lines: list[str] = []  # sizes that were sent off before it was there

    def compose(self) -> ComposeResult:
        standing = self.session.standing()
        answer = AnswerLine(self._notice or _USUAL_TELLING)
        since = ago_words(standing.last_at, self.coach.now())
        title = f"{standing.title}: {standing.state}, last worked {since}"
        yield from self.framed(title, Lines(self._words()), answer)

    def on_mount(self) -> None:
        self.once_shown(partial(load, "bench"))

    def on_resize(self) -> None:
        self.query_one(Lines).show(self._words())

    def _words(self) -> Content:
        session = self.session
        if self._care:
            return page_content(page(*care_sections(self._care[:1])), self.app.size.width - 4)
        told = summary(session.standing(), session.first_to_measure(), self.shown)
        return page_content(page(told), min(self.app.size.width - _AROUND, _WIDEST))

    def on_key(self, event: events.Key) -> None:
        # Someone who measures before reading, or a calliper that types by itself, must not type into nothing.
        if event.key == "enter":  # in its turn, behind what was typed before it
            event.stop()
            self.action_go_on()
            return
        if event.key == "backspace":
            self._typed = self._typed[:-1]
        elif event.character is not None and event.character in _OF_A_SIZE:
            self._typed += event.character
        else:
            return
        event.stop()
        kept = f"{self._typed}: Enter takes it along to the bench." if self._typed else _USUAL_TELLING
        self.tell(kept)

    def way_to_the_bench(self) -> str:
        return "Enter goes there."

    def action_go_on(self) -> None:
        """To the bench; a gauge that types by itself may have more to say first."""
        if self._typed:
            self._lines.append(self._typed)
            self._typed = ""
            if not self.coach.burst_s:
                self.carry_on()
            elif len(self._lines) == 1:
                self.set_timer(self.coach.burst_s, self.carry_on)
        elif not self._lines or self._turned:
            self.carry_on()

    def carry_on(self) -> None:
        """Go to the bench with all that was typed here, of which nothing is entered yet."""
        if len(self._care) > 1:  # one thing at a time
            self._care, self._turned = self._care[1:], True
            self.query_one(Lines).show(self._words())
            self.tell(_USUAL_TELLING)
            return
        state = self.session.standing().state
        notice = ""
        if state in (JobStatus.RESTING, JobStatus.SET_ASIDE):
            take = self.session.resume if state is JobStatus.RESTING else self.session.bring_back
            answer = self.attempt(take)
            if answer is None:
                return
            notice = self.said(answer)
        self.coach.go("bench", self.session, notice, "\n".join([*self._lines, self._typed]).strip("\n"))

    def action_open(self, place: str) -> None:
        lines = self.query_one(Lines)
        self.coach.lay_over(place, self.session, then=lambda _: lines.show(self._words()))

    def action_leave(self) -> None:
        self.coach.go("shop")
