"""Fitting the eye to a haft: one question after another, then what the eye must be; Enter works to it."""

from __future__ import annotations

from typing import NamedTuple

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from coach.bench.hafting import USUAL_IN_USE, USUAL_MOISTURE, USUAL_WOOD, EyeForHaft, HaftAsked
from coach.bench.session import Session
from coach.finish.haft import woods
from coach.screens.page_content import section_lines
from coach.screens.screen import JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, joined, one_line
from coach.telling.haft import eye_section

WAY_IN = {"key": "ctrl+t", "words": "Haft", "told": "Fit the eye to a haft that is there", "group": "Write"}


class _Question(NamedTuple):
    """One thing that is asked of the haft."""

    name: str
    asks: str
    usual: str  # what Enter on an empty box means; "" where it must be told


_TURNED = "turned"
_QUESTIONS = (
    _Question("length", "Haft, along the head, where it is to fill the eye", ""),
    _Question("width", "Haft, across the head, at the same place", ""),
    _Question("wood", "Its wood: ↑ and ↓ show others", USUAL_WOOD),
    _Question("moisture", "Moisture of the wood now, in per cent", USUAL_MOISTURE),
    _Question("in_use", "Moisture where it will be used, in per cent", USUAL_IN_USE),
    _Question("second_length", "Riven, not turned? Along the head at a second place", _TURNED),
    _Question("second_width", "Across the head at that second place", ""),
)


class HaftScreen(JobScreen):
    """Asks for the haft, shows the eye it needs, and works the job to it."""

    CSS_PATH = "haft.tcss"
    NAME = "Fitting a haft"
    HELP_TEXT = """
        A haft that is there already decides the eye. Measure it where it is to fill the eye: along the
        head, then across it. Wood shrinks as it dries, so its moisture now and where it will be used count
        too; Enter on an empty box takes what is usual. A riven haft is measured at a second place.

        At the end the coach says what to drift the eye to and why. Enter lets the job work to it; at the
        bench, Undo takes it back. Esc goes back one question.
    """
    BINDINGS = [
        key("up", "other_wood(-1)", "Wood", "The wood before, when the wood is asked for", show=False),
        key("down", "other_wood(1)", "Wood", "The wood after, when the wood is asked for", show=False),
        key(
            "enter",
            "next",
            "Next",
            "Take what is typed; at the end, work to the eye that is shown",
            first=False,
        ),
        key("escape", "before", "Back", "The question before; from the first, back to the bench"),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._told: dict[str, str] = {}
        self._at = 0  # the question in hand; the number of questions stands for the answer
        self._eye: EyeForHaft | None = None

    def compose(self) -> ComposeResult:
        answer = AnswerLine("Measure the haft with the calliper, dry and clean.")
        prompt, box = Static("", id="prompt", markup=False), Box()
        title = f"A haft for {self.session.recipe.title}"
        yield from self.framed(title, Lines(can_focus=False), answer, prompt, box)

    def on_mount(self) -> None:
        self._ask()

    # ── asking ───────────────────────────────────────────────────────────────────────────────────

    @property
    def _riven(self) -> bool:
        return self._told.get("second_length", _TURNED) != _TURNED

    @property
    def _question(self) -> _Question | None:
        """The question in hand: the second place is measured whole or not at all."""
        questions = _QUESTIONS if self._riven else _QUESTIONS[:-1]
        return questions[self._at] if self._at < len(questions) else None

    def _ask(self) -> None:
        """Show the question in hand and what was told so far."""
        question, box = self._question, self.query_one(Input)
        lines = [_told(one, self._told[one.name]) for one in _QUESTIONS[: self._at]]
        if question is not None:
            asks = question.asks
            self._type(self._told.get(question.name, ""))
            box.placeholder = f"Enter takes {question.usual}" if question.usual else "type it, then Enter"
        else:
            asks = "Work to this eye?"
            self._type("")
            box.placeholder = "Enter works to this eye, Esc goes back"
            assert self._eye is not None
            eye = eye_section(self._eye, self.shown)
            told = section_lines(eye._replace(heading=""), width=0)
            lines += [Content(""), one_line(eye.heading, Ink.STRONG), *told]
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
            self._take()
            return
        typed = self.query_one(Input).value.strip() or question.usual
        if not typed:
            self.tell("Measure it and type the size: the eye cannot be reckoned without.", bad=True)
            return
        self._told[question.name] = typed
        self._at += 1
        if self._question is not None:
            self.tell("")
        else:
            self._eye = self.attempt(lambda: self.session.haft(self._haft()))
            if self._eye is not None:
                self.tell("Enter works to this eye from now on; Undo at the bench takes it back.")
            else:  # something cannot be: the size is asked for again
                self._at = 0
        self._ask()

    def _haft(self) -> HaftAsked:
        told = self._told
        second = f"{told['second_length']}x{told['second_width']}" if self._riven else ""
        return HaftAsked(
            size=f"{told['length']}x{told['width']}",
            wood=told["wood"],
            moisture=told["moisture"],
            in_use=told["in_use"],
            second=second,
        )

    def _take(self) -> None:
        answer = self.attempt(lambda: self.session.fit_haft(self._haft()))
        if answer is not None:
            self.dismiss(answer)

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def action_other_wood(self, by: int) -> None:
        if self._question is None or self._question.name != "wood":
            return
        names, typed = [wood.name for wood in woods()], self.query_one(Input).value
        now = names.index(typed) if typed in names else -1 if by > 0 else 0
        self._type(names[(now + by) % len(names)])

    def action_before(self) -> None:
        if self._at == 0:
            self.dismiss()
            return
        self._at -= 1
        self._ask()


def _told(question: _Question, told: str) -> Content:
    asked = question.asks.partition(":")[0]
    return Content.assemble(one_line(f"{asked}:", Ink.QUIET), " ", one_line(told, Ink.STRONG))
