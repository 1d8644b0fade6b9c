"""Beginning or resuming a job: what holds all day; or where it stands, what comes next, what to measure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.content import Content

from coach.bench.care import SaidOnce
from coach.bench.session import Session
from coach.log.status import JobStatus
from coach.screens.page_content import page_in_window
from coach.screens.places import keys_from, load
from coach.screens.reply import ask
from coach.screens.screen import LOOK_EVERY_S, JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.entry_box import MOST_LINES
from coach.screens.widgets.panel import Lines
from coach.telling.care import care_sections
from coach.telling.clock import ago_words
from coach.telling.page import page
from coach.telling.summary import summary

if TYPE_CHECKING:
    from textual.timer import Timer


#: Keys of the bench that are done there though they are pressed here: whoever knows what stands here goes on.
#: Not those that take back or insist, for what they do that to is not seen here.
_TAKEN_ALONG = ("f2", "f3", "f4", "f6", "f7")
#: Signs that no size begins with, and that do there what a key of this screen does not.
_SIGNS_ALONG = (">", "-", "/")
_USUAL_TELLING = "Enter goes to the bench."


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

        Enter goes to the bench. So do F2, F3, F4, F6 and F7, and do there what they always do; of several
        pieces made alike, > goes there with the next one in hand.
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
        self._turned = self._gone = False
        self._lines: list[str] = []  # sizes that were sent off before it was there
        self._leaves = False  # whether it was asked about what would be lost
        self._quiet_in: Timer | None = None  # when no more is to come, as far as can be told

    def compose(self) -> ComposeResult:
        standing = self.session.standing()
        answer = AnswerLine(self._notice or _USUAL_TELLING)
        since = ago_words(self.session.worked_at, self.coach.now())
        title = f"{standing.title}: {standing.state}, last worked {since}"
        yield from self.framed(title, Lines(self._words()), answer)

    def on_mount(self) -> None:
        self.set_interval(LOOK_EVERY_S, self.catch_up)
        self.once_shown(partial(load, "bench"))

    def catch_up(self) -> None:
        """Tell anew where the job stands, once another window or a command has entered something."""
        before = self.session.standing().last_entry
        if self.look(self.session.refresh):
            self.query_one(Lines).show(self._words())
            self.tell(f"{self.entered_elsewhere(before)} {_USUAL_TELLING}")

    def on_resize(self) -> None:
        self.query_one(Lines).show(self._words())

    def _words(self) -> Content:
        session = self.session
        if self._care:
            told = page(*care_sections(self._care[:1]))
        else:
            told = page(summary(session.standing(), session.first_to_measure(), self.shown))
        return page_in_window(told, self.app.size.width)

    def takes_at_once(self, event: events.Key | events.Paste) -> bool:
        # Someone who measures before reading, or a calliper that types by itself, must not type into nothing;
        # nor must whoever knows what stands here and goes on typing at the bench.
        if isinstance(event, events.Paste):
            self._take_pasted(event.text)
            return True
        if event.key != "escape":
            self._leaves = False
        if event.key == "enter":
            self.action_go_on()
            return True
        if event.key == "backspace":
            self._typed = self._typed[:-1]
        elif event.character in _SIGNS_ALONG and not self._typed:
            if self._lines or len(self._care) <= 1:
                self.carry_on()
            return False
        elif event.is_printable and (self._typed or (event.character or "").strip()):
            self._typed += event.character or ""
        else:
            along = self._lines or (event.key in _TAKEN_ALONG and len(self._care) <= 1)
            if along and not self._typed and self.is_of_the_bench(event):  # no gauge goes on so
                self.carry_on()
            return False
        kept = f"{self._typed}: Enter takes it along to the bench." if self._typed else _USUAL_TELLING
        self.tell(kept)
        return True

    def way_to_the_bench(self) -> str:
        return "Enter goes there."

    def _take_pasted(self, text: str) -> None:
        """Each line as if it had been typed; the last without its Enter where it has none."""
        *lines, last = re.split(r"\r\n|\r|\n", text)
        if len(lines) > MOST_LINES:
            told = f"{len(lines)} lines came at once: nothing is taken of them. Paste {MOST_LINES} at most."
            self.tell(told, bad=True)
            return
        for line in lines:
            self._lines += [one for one in [self._typed + line] if one.strip()]
            self._typed = ""
        self._typed += last
        waiting = "1 number" if len(self._lines) == 1 else f"{len(self._lines)} numbers"
        kept = ", ".join(filter(None, (waiting if self._lines else "", self._typed)))
        self.tell(f"{kept}: Enter takes it along to the bench." if kept else _USUAL_TELLING)

    def action_go_on(self) -> None:
        """To the bench; a gauge that types by itself may have more to say first."""
        if self._typed:
            self._lines.append(self._typed)
            self._typed = ""
            if not self.coach.burst_s:
                self.carry_on()
                return
            if self._quiet_in is not None:
                self._quiet_in.stop()
            self._quiet_in = self.set_timer(self.coach.burst_s, self.quiet)
        elif self._quiet_in is None or self._turned:
            self.carry_on()

    def quiet(self) -> None:
        """Nothing came for a while; what is half typed is waited for, so that no number comes apart."""
        self._quiet_in = None
        if not self._typed:
            self.carry_on()

    def carry_on(self) -> None:
        """Go to the bench with all that was typed here, of which nothing is entered yet."""
        if self._gone:
            return
        if len(self._care) > 1:  # one thing at a time
            self._care, self._turned = self._care[1:], True
            self.query_one(Lines).show(self._words())
            self.tell(_USUAL_TELLING)
            return
        # What came meanwhile is no reason to stay: the bench shows it.
        before, notice = self.session.standing().last_entry, ""
        if self.attempt(self.session.refresh):
            notice = self.entered_elsewhere(before)
        state = self.session.standing().state
        if state in (JobStatus.RESTING, JobStatus.SET_ASIDE):
            take = self.session.resume if state is JobStatus.RESTING else self.session.bring_back
            answer = self.attempt(take)
            if answer is None:
                return
            notice = f"{self.said(answer)} {notice}".strip()
        self._gone = True
        self.coach.go("bench", self.session, notice, "\n".join([*self._lines, self._typed]).strip("\n"))

    def action_open(self, place: str) -> None:
        lines = self.query_one(Lines)
        self.coach.lay_over(place, self.session, then=lambda _: lines.show(self._words()))

    def action_leave(self) -> None:
        if not self._leaves and (typed := [*self._lines, *filter(None, [self._typed])]):
            self._leaves = True
            what = f"{typed[0]} is" if len(typed) == 1 else f"{len(typed)} numbers are"
            told = f"{what} not entered and would be lost: Esc leaves all the same."
            ask(self, told, self.action_leave, self._stays)
            return
        self.coach.go("shop")

    def _stays(self) -> None:
        self._leaves = False
        self.tell(f"What was typed stays. {_USUAL_TELLING}")
