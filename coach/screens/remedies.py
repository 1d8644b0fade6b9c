"""Ways back onto plan: each with what it changes and what it brings; one can be taken."""

from __future__ import annotations

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coach.bench.session import Session
from coach.bench.standing import RemedyView, Standing
from coach.quantities import write_count
from coach.screens.screen import LOOK_EVERY_S, JobScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.metal_panel import verdict_words
from coach.screens.widgets.pick_list import PickList
from coach.screens.wording import QUIET, STRONG, joined, marked, one_line, percent, said, titled

WAY_IN = {
    "from": ("bench",),
    "key": "ctrl+r",
    "words": "Ways back",
    "told": "Show what can be done to come back onto plan",
    "show": False,
    "sign": "*",
}


class RemediesScreen(JobScreen):
    """What can be done, the best first; keeps the answer when one was taken."""

    CSS_PATH = "remedies.tcss"
    NAME = "Ways back"
    HELP_TEXT = """
        Ways to come back onto plan, the best first: what to do, the chance of making the drawing once it is
        done, reckoned as the job itself is, how many more heats it takes, whether it is sound, and what
        changes. Below stands what the chosen one leads to and what to mind with it.

        Enter takes the chosen one, a second Enter for certain. What it changes holds from then on, in this
        job alone; at the bench, Undo takes it back.
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "take", "Take it", "Take the chosen way"),
        key("escape,asterisk,ctrl+r", "close", "Bench", "Go back and change nothing"),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._remedies: tuple[RemedyView, ...] = ()
        self._asked = ""  # the name of the one that a second Enter would take

    def compose(self) -> ComposeResult:
        yield Static(one_line(f"Ways back for {self.session.recipe.title}"), id="title", markup=False)
        yield Static("", id="stands", markup=False)
        yield PickList(id="ways")
        with VerticalScroll(id="lines", can_focus=False):
            yield Static("", id="words", markup=False)
        yield AnswerLine()
        yield from self.rim()

    def on_mount(self) -> None:
        self._fill()
        self.query_one(PickList).focus()
        self.set_interval(LOOK_EVERY_S, self.catch_up)

    def _fill(self) -> None:
        """Show the ways that there are as the job stands now."""
        self._asked = ""
        self._remedies = self.session.remedies()
        self.query_one("#stands", Static).update(verdict_words(self.session.standing()))
        ways = self.query_one(PickList)
        ways.clear_options()
        ways.add_options([Option(_way(remedy), id=remedy.name) for remedy in self._remedies])
        ways.display = bool(self._remedies)
        if self._remedies:
            ways.highlighted = 0
        self._tell_chosen()

    def catch_up(self) -> None:
        """Show what another window or a command has made of the job since."""
        if self.look(self.session.refresh):
            self._fill()

    # ── choosing ─────────────────────────────────────────────────────────────────────────────────

    def _chosen(self) -> RemedyView | None:
        at = self.query_one(PickList).highlighted
        return self._remedies[at] if at is not None and at < len(self._remedies) else None

    @on(OptionList.OptionHighlighted)
    def _chosen_changed(self) -> None:
        chosen = self._chosen()
        if chosen is None or chosen.name != self._asked:
            self._asked = ""
            self._tell_chosen()

    def _tell_chosen(self) -> None:
        remedy = self._chosen()
        words = self.query_one("#words", Static)
        if remedy is None:
            words.update(said(_none_words(self.session.standing()), STRONG))
            self.tell("Esc goes back to the bench.")
            return
        words.update(_leads_to(remedy))
        self.tell("Enter takes the chosen one; Esc goes back and changes nothing.")

    # ── taking ───────────────────────────────────────────────────────────────────────────────────

    @on(OptionList.OptionSelected)
    def _clicked(self) -> None:
        self.action_take()

    def action_take(self) -> None:
        remedy = self._chosen()
        if remedy is None:
            self.action_close()
        elif self._asked != remedy.name:
            self._asked = remedy.name
            self.query_one(AnswerLine).tell(_question(remedy), asks=True)
        else:
            self._take(remedy)

    def _take(self, remedy: RemedyView) -> None:
        self.taken = self.attempt(lambda: self.session.take(remedy.name))
        if self.taken is None:
            # It may be refused because the job has moved on meanwhile: the reason stays, the list is new.
            refusal = self.query_one(AnswerLine).content
            self._fill()
            self.tell(str(refusal).removeprefix("! "), bad=True)
        elif remedy.again:
            self.coach.show_shop(self.taken.sentence)
        else:
            self.dismiss()

    def action_close(self) -> None:
        if self._asked:
            self._asked = ""
            self._tell_chosen()
        else:
            self.dismiss()


def _none_words(standing: Standing) -> str:
    if standing.verdict == "on plan":
        return "Nothing is wrong that needs a way out."
    return "No way out is known as the job stands."


def _question(remedy: RemedyView) -> str:
    if remedy.again:
        return (
            "This job is set aside as it is, and the shop opens to begin another. "
            "Enter again sets it aside, Esc does not."
        )
    return f"{remedy.title}: Enter again takes it, Esc does not."


def _way(remedy: RemedyView) -> Content:
    """One way at a glance: what to do, what it brings and costs, what changes."""
    heats = write_count(remedy.heats, "more heat") if remedy.heats else "no more heats"
    brings = joined(
        [
            marked(remedy.verdict),
            one_line(percent(remedy.chance), STRONG),
            one_line(heats),
            one_line(remedy.sound),
        ],
        "  ",
    )
    return joined([one_line(remedy.title, STRONG), brings, one_line(remedy.changes, QUIET)])


def _leads_to(remedy: RemedyView) -> Content:
    lines = [titled("Mind", said(remedy.caution), bad=True)] if remedy.caution else []
    return joined([*lines, titled("Then", said(remedy.reason))])
