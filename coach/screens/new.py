"""A new recipe: one question after another about the tool, then what is proposed; Enter writes it."""

from __future__ import annotations

from pathlib import Path
from textwrap import indent

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, Static

from coach.bench.answer import Answer
from coach.drafting.checked import Draft
from coach.drafting.draft import drafted
from coach.drafting.questions import Interview
from coach.ledger.verdict import PlanState
from coach.quantities.words import say
from coach.screens.page_content import page_content, width_in_window
from coach.screens.reply import no_reply, reply_of
from coach.screens.screen import TURNS, CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, joined, one_line, said
from coach.telling.plan import Drawings
from coach.telling.writing import Shown

#: What stands there before anything is answered.
_AHEAD = (
    "What is asked, one thing at a time:",
    "",
    "1  what is to be made, and the units of its sizes",
    "2  its steel or iron, and the bar at hand",
    "3  each zone from the end of the bar on, its name and its finished size",
    "4  steel that is laid on, hardening, a haft",
    "",
    "Enter alone takes what is usual, Esc goes back one question.",
    "Then the coach proposes the steps, shows the piece, and writes the file.",
)
#: Rows of the picture of the finished piece (our choice).
_ROWS = 10


class NewScreen(CoachScreen):
    """Asks for the tool, shows what is proposed, and writes its file."""

    CSS_PATH = "new.tcss"
    OVER = True
    NAME = "A new recipe"
    HELP_TEXT = """
        Say what is to be made: the bar at hand, then each zone from the end of the bar on with its finished
        size, in the words of a recipe, such as tip: square 8 to 3, long 90. Enter on an empty box takes
        what is usual, Esc goes back one question. Steel that is laid on, hardening and a haft are asked for
        after the zones.

        At the end the coach proposes the steps with their heats, cuts and heat treatment, and shows the
        piece, what is cut short and where the doubt comes from. Enter writes the file into your recipes
        folder, over nothing; there it can be worked over, and begun from the shop.
    """
    BINDINGS = [
        key("enter", "next", "Next", "Take what is typed; at the end, write the file", first=False),
        key("escape", "before", "Back", "The question before; from the first, back to the shop"),
        *TURNS,
    ]

    def __init__(self) -> None:
        super().__init__()
        self._interview = Interview()
        self._draft: Draft | None = None

    def compose(self) -> ComposeResult:
        prompt, box = Static("", id="prompt", markup=False), Box()
        yield from self.framed("A new recipe", Lines(can_focus=False), AnswerLine(), prompt, box)

    def on_mount(self) -> None:
        self._ask("")

    def on_resize(self) -> None:
        if self._draft is not None:
            self._show_draft()

    def _ask(self, typed: str) -> None:
        """Show the question in hand and what was told so far."""
        question, box = self._interview.question, self.query_one(Input)
        box.value = typed
        box.cursor_position = len(typed)
        prompt = self.query_one("#prompt", Static)
        if question is None:
            prompt.update(one_line("Write this recipe?", Ink.STRONG))
            box.placeholder = "Enter writes it, Esc goes back"
            self._show_draft()
            return
        prompt.update(one_line(question.asks, Ink.STRONG))
        box.placeholder = f"Enter takes {question.usual}" if question.usual else f"such as {question.such_as}"
        rows = [_told(name, text) for name, text in self._interview.told]
        self.query_one(Lines).show(joined(rows or [said("\n".join(_AHEAD), Ink.QUIET)]))

    def _show_draft(self) -> None:
        from coach.telling.drafted import drafted_page

        assert self._draft is not None
        shown = Shown(self._draft.plan.recipe.system)
        width = width_in_window(self.app.size.width)
        drawn = _drawn(self._draft, width, shown)
        told = drafted_page(self._draft.planned, shown, drawn, self._draft.otherwise)
        self.query_one(Lines).show(page_content(told, width))

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        self.action_next()

    def action_next(self) -> None:
        typed = self.query_one(Input).value
        if self._draft is not None:
            said = reply_of(typed) if typed.strip() else True
            if said is None:
                self.tell(no_reply(typed, "writes it"), bad=True)
            elif said:
                self._write()
            else:
                self.action_before()
                self.tell("Nothing is written.")
            return
        if self.attempt(lambda: self._answered(typed)) is None:
            return
        self.tell("")
        if self._interview.question is None:
            self._draft = self.attempt(lambda: drafted(self._interview.answers()))
            if self._draft is None:  # something cannot be: the last answer is asked for again
                self._ask(self._interview.back() or "")
                return
            bad = self._draft.planned.verdict is PlanState.OFF_PLAN
            self.tell(
                "Something is to be put right in it first." if bad else "Enter writes it to your recipes.",
                bad=bad,
            )
        self._ask("")

    def _answered(self, typed: str) -> bool:
        self._interview.answer(typed)
        return True

    def _write(self) -> None:
        assert self._draft is not None
        draft = self._draft
        path = self.attempt(lambda: self._written(draft))
        if path is not None:
            bad = bool(draft.planned.findings)
            self.dismiss(Answer(say("{} is proposed in {}", draft.planned.title, str(path)), 0, bad_news=bad))

    def _written(self, draft: Draft) -> Path:
        """Its file, in the smith's own recipes folder, under a name that is free."""
        from coach.recipe.own_file import write_own
        from coach.recipe.short_name import short_name

        return write_own(self.coach.folders[0], short_name(draft.planned.title, ""), draft.text)

    def action_before(self) -> None:
        self._draft = None
        last = self._interview.back()
        if last is None:
            self.dismiss(None)
            return
        self.tell("")
        self._ask(last)


def _told(name: str, text: str) -> Content:
    asked = name.replace("_", " ").capitalize()
    return Content.assemble(one_line(f"{asked}:", Ink.QUIET), " ", one_line(text or "no more", Ink.STRONG))


def _drawn(draft: Draft, width: int, shown: Shown) -> Drawings:
    from coach.drawing.braille import stacked
    from coach.drawing.cells import as_text
    from coach.drawing.job import finished_views, host_pieces

    return Drawings(
        finished={
            piece: indent(
                as_text(stacked(finished_views(draft.plan, piece), (), width - 2, _ROWS, shown=shown)), "  "
            )
            for piece in host_pieces(draft.plan)
        }
    )
