"""A screen that asks one question after another, shows what follows, and enters it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.forms import listed
from coach.screens.page_content import section_lines
from coach.screens.reply import no_reply, reply_of
from coach.screens.screen import TURNS, JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.row_list import SIGN
from coach.screens.wording import Ink, joined, one_line
from coach.telling.page import Section

#: More choices than there are digits are not listed: the arrows show them (our choice).
_MOST_LISTED = 9
#: What may be typed stands in a column so wide (our choice).
_TYPED_CELLS = 28


class Question(NamedTuple):
    """One thing that is asked."""

    name: str
    asks: str
    usual: str = ""  # what Enter on an empty box means; "" where it must be told
    choices: tuple[str, ...] = ()  # what the arrows turn through
    such_as: tuple[tuple[str, str], ...] = ()  # what may be typed, and what it means
    among: str = ""  # what is said of anything but the choices, with {typed} and {choices}; "" takes it too
    closed: tuple[tuple[str, str], ...] = ()  # choices that cannot be taken now and keep their place, and why


class AskingScreen(JobScreen):
    """Asks, shows what comes of the answers, and enters that once Enter is pressed upon it."""

    CSS_PATH = "asked.tcss"
    FIRST_TELLS = ""
    """What is told beside the first question."""
    MUST_BE_TOLD = ""
    """What is said of an empty box where nothing is usual."""
    ENTERS = ("", "")
    """What is asked at the end, and what Enter does there."""
    TELLS_AT_END = ""
    """What is told beside what comes of the answers."""
    IN_DOUBT: tuple[str, ...] = ()
    """What is asked again, the first of these that was, where all the answers together cannot be."""
    BINDINGS = [
        key("up", "other(-1)", "Choice", "The choice before, where there are some", show=False),
        key("down", "other(1)", "Choice", "The choice after, where there are some", show=False),
        key("enter", "next", "Next", "Take what is typed; at the end, enter what is shown", first=False),
        key("escape", "before", "Back", "The question before; from the first, back to the bench"),
        *TURNS,
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.told: dict[str, str] = {}
        self._at = 0  # the question in hand; the number of questions stands for what comes of them
        self._shows: Section | None = None

    def compose(self) -> ComposeResult:
        answer = AnswerLine(self.FIRST_TELLS)
        prompt, box = Static("", id="prompt", markup=False), Box()
        yield from self.framed(self.title_told(), Lines(can_focus=False), answer, prompt, box)

    def on_mount(self) -> None:
        self._ask()

    # ── what a screen of the kind says ───────────────────────────────────────────────────────────

    def title_told(self) -> str:
        """Its title."""
        raise NotImplementedError

    def questions(self) -> Sequence[Question]:
        """What is asked, by what was told so far."""
        raise NotImplementedError

    def comes_of_it(self) -> Section:
        """What follows from all that was told; raises Refusal."""
        raise NotImplementedError

    def entered(self) -> Answer:
        """Enter it; raises Refusal."""
        raise NotImplementedError

    # ── asking ───────────────────────────────────────────────────────────────────────────────────

    @property
    def _question(self) -> Question | None:
        questions = self.questions()
        return questions[self._at] if self._at < len(questions) else None

    def _ask(self) -> None:
        """Show the question in hand and what was told so far."""
        question, box = self._question, self.query_one(Input)
        asked = self.questions()
        lines = [
            _told(one, self.told[one.name] if at < self._at else "", asked_now=at == self._at)
            for at, one in enumerate(asked)
        ]
        if question is not None:
            asks = question.asks
            if len(question.choices) <= _MOST_LISTED:
                closed = dict(question.closed)
                lines += [Content("")]
                for at, name in enumerate(question.choices, start=1):
                    ink = Ink.QUIET if name in closed else Ink.PLAIN
                    lines.append(one_line(f"{at} {name}", ink, indent=len(SIGN)))
            for typed, means in question.such_as:
                what, gap = one_line(typed, Ink.STRONG, indent=len(SIGN)), max(1, _TYPED_CELLS - len(typed))
                lines.append(Content.assemble(what, one_line(means, indent=gap)))
            self._type(self.told.get(question.name, ""))
            box.placeholder = f"Enter takes {question.usual}" if question.usual else "type it, then Enter"
        else:
            asks, enters = self.ENTERS
            self._type("")
            box.placeholder = f"Enter {enters}, Esc goes back"
            assert self._shows is not None
            told = section_lines(self._shows._replace(heading=""), width=0)
            lines += [Content(""), one_line(self._shows.heading, Ink.STRONG), *told]
        self.query_one("#prompt", Static).update(one_line(asks, Ink.STRONG))
        self.query_one(Lines).show(joined(lines))

    def _type(self, text: str) -> None:
        box = self.query_one(Input)
        box.value = text
        box.cursor_position = len(text)

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        self.action_next()

    def action_next(self) -> None:
        question = self._question
        if question is None:
            self._answer_the_last(self.query_one(Input).value)
            return
        typed = self.query_one(Input).value.strip() or question.usual
        if not typed:
            self.tell(self.MUST_BE_TOLD, bad=True)
            return
        told = _chosen(question, typed)
        if question.among and told not in question.choices:
            choices = listed(question.choices, "or")
            self.tell(question.among.format(typed=repr(typed[:30]), choices=choices), bad=True)
            self.query_one(Input).action_select_all()
            return
        if why := dict(question.closed).get(told):
            self.tell(why, bad=True)
            self.query_one(Input).action_select_all()
            return
        self.told[question.name] = told
        self._at += 1
        refused = False
        if self._question is not None:
            self.tell("")
        else:
            self._shows = self.attempt(self.comes_of_it)
            refused = self._shows is None
            if not refused:
                self.tell(self.TELLS_AT_END)
            else:  # something cannot be: it is asked again, with what was told after it still there
                asked = [one.name for one in self.questions()]
                self._at = next((asked.index(one) for one in self.IN_DOUBT if one in asked), 0)
        self._ask()
        if refused:  # another line is typed in its place; the arrows mend this one
            self.query_one(Input).action_select_all()

    def _answer_the_last(self, typed: str) -> None:
        """What is shown is entered by a yes alone."""
        said = reply_of(typed) if typed.strip() else True
        if said is None:
            self.tell(no_reply(typed, self.ENTERS[1]), bad=True)
        elif not said:
            self.action_before()
            self.tell("Nothing is entered.")
        elif (answer := self.attempt(self.entered)) is not None:
            self.dismiss(answer)

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def action_other(self, by: int) -> None:
        if self._question is None or not self._question.choices:
            return
        closed, typed = dict(self._question.closed), self.query_one(Input).value
        names = [one for one in self._question.choices if one not in closed]
        now = names.index(typed) if typed in names else -1 if by > 0 else 0
        self._type(names[(now + by) % len(names)])

    def action_before(self) -> None:
        if self._at == 0:
            self.dismiss()
            return
        self._at -= 1
        self._ask()


def _chosen(question: Question, typed: str) -> str:
    """What was typed, or the choice of that number, or the one that it is the name or the beginning of."""
    at = int(typed) if typed.isdecimal() and len(question.choices) <= _MOST_LISTED else 0
    if 1 <= at <= len(question.choices):
        return question.choices[at - 1]
    begun = " ".join(typed.lower().replace("_", " ").split())
    found = [one for one in question.choices if one.lower().startswith(begun)]
    alike = [one for one in found if one.lower() == begun] or found
    return alike[0] if begun and len(alike) == 1 else typed


def _told(question: Question, told: str, *, asked_now: bool) -> Content:
    """A question with its answer, the sign before the one in hand."""
    asked = f"{question.asks.partition(':')[0]}:"
    if asked_now:
        return Content.assemble(SIGN, one_line(asked, Ink.STRONG))
    return Content.assemble(" " * len(SIGN), one_line(asked, Ink.QUIET), " ", one_line(told, Ink.STRONG))
