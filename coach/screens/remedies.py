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
from coach.bench.standing import Answer, RemedyView
from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.pick_list import PickList
from coach.screens.wording import LABEL, QUIET, STRONG, joined, marked, one_line, percent, said, titled


class RemediesScreen(CoachScreen):
    """What can be done, the best first; gives back the answer when one was taken."""

    CSS_PATH = "remedies.tcss"
    OVER = True
    NAME = "Ways back"
    HELP_TEXT = """
        Each line is a way to come back onto plan, the best first: what to do, how many more heats it takes,
        and the chance of making the drawing once it is done, reckoned as the job itself is. Below it stands
        what changes, whether it is sound, and what to mind.

        Enter takes the chosen one, a second Enter for certain. What it changes holds from then on, in this
        job alone; at the bench, Undo takes it back.
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "take", "Take it", "Take the chosen way"),
        key("escape,asterisk,ctrl+r", "close", "Bench", "Go back and change nothing"),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.taken: Answer | None = None
        """What the coach said to the one that was taken, for whoever opened this screen."""
        self._remedies: tuple[RemedyView, ...] = ()
        self._sure = False

    def compose(self) -> ComposeResult:
        yield Static(one_line(f"Ways back for {self.session.recipe.title}"), id="title", markup=False)
        yield PickList(id="ways")
        with VerticalScroll(id="lines", can_focus=False):
            yield Static("", id="words", markup=False)
        yield AnswerLine()
        yield from self.rim()

    def on_mount(self) -> None:
        self._remedies = self.session.remedies()
        ways = self.query_one(PickList)
        ways.add_options([Option(_line(remedy), id=remedy.name) for remedy in self._remedies])
        if self._remedies:
            ways.highlighted = 0
        ways.focus()
        self._tell_chosen()

    @on(OptionList.OptionHighlighted)
    def _chosen_changed(self) -> None:
        self._sure = False
        self._tell_chosen()

    def _chosen(self) -> RemedyView | None:
        at = self.query_one(PickList).highlighted
        return self._remedies[at] if at is not None and at < len(self._remedies) else None

    def _tell_chosen(self) -> None:
        remedy = self._chosen()
        words = self.query_one("#words", Static)
        if remedy is None:
            words.update(said("Nothing is wrong that needs a way out.", STRONG))
            self.tell("Esc goes back to the bench.")
            return
        words.update(_told(remedy))
        self.tell("Enter takes it; Esc goes back and changes nothing.")

    def action_take(self) -> None:
        remedy = self._chosen()
        if remedy is None:
            self.action_close()
        elif not self._sure:
            self._sure = True
            what = "sets this job aside" if remedy.again else "takes it"
            self.query_one(AnswerLine).tell(f"{remedy.title}: Enter again {what}, Esc does not.", asks=True)
        else:
            self._take(remedy)

    def _take(self, remedy: RemedyView) -> None:
        self.taken = self.attempt(lambda: self.session.take(remedy.name))
        if self.taken is None:
            return
        if remedy.again:
            self.coach.show_shop(self.taken.sentence)
        else:
            self.dismiss()

    def action_close(self) -> None:
        self.dismiss()


def _line(remedy: RemedyView) -> Content:
    heats = f"+{remedy.heats} heat{'' if remedy.heats == 1 else 's'}" if remedy.heats else ""
    return joined(
        [
            one_line(remedy.title, STRONG),
            marked(remedy.verdict),
            one_line(percent(remedy.chance)),
            one_line(heats, QUIET),
        ],
        "  ",
    )


def _told(remedy: RemedyView) -> Content:
    lines = [
        said(remedy.changes),
        titled("Then", said(remedy.reason)),
        titled("Sound", said(remedy.sound)),
    ]
    if remedy.caution:
        lines.append(titled("Mind", said(remedy.caution)))
    return joined([one_line("What changes", LABEL), *lines])
