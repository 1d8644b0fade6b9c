"""Every entry of a job, those struck out marked; any can be struck out or brought back."""

from __future__ import annotations

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.widgets import Static
from textual.widgets.option_list import Option

from coach.bench.session import Session
from coach.bench.standing import EntryView
from coach.screens.screen import LOOK_EVERY_S, CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.pick_list import PickList
from coach.screens.wording import QUIET, entry_moment, one_line, said


class HistoryScreen(CoachScreen):
    """The job's log, the newest entry last and chosen."""

    CSS_PATH = "history.tcss"
    OVER = True
    NAME = "The log of a job"
    HELP_TEXT = """
        Everything entered for this job, in order. Nothing is ever taken out of it: an entry made in error
        is struck out, which is itself an entry, and can be brought back the same way. Choose one with the
        arrows; Enter strikes it out, or brings it back when it was struck out. Times are in UTC.
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        key("enter", "strike", "Strike out / bring back", "Strike the chosen entry out, or bring it back"),
        key("escape,f9", "close", "Bench", "Go back"),
    ]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    def compose(self) -> ComposeResult:
        yield Static(one_line(f"The log of {self.session.recipe.title}"), id="title", markup=False)
        yield PickList(id="entries")
        yield AnswerLine()
        yield from self.rim()

    def on_mount(self) -> None:
        self._fill(None)
        self.query_one(PickList).focus()
        self.tell("Enter strikes the chosen entry out, or brings it back.")
        self.set_interval(LOOK_EVERY_S, self.catch_up)

    def _fill(self, chosen: int | None) -> None:
        entries = self.query_one(PickList)
        views = self.session.history()
        entries.clear_options()
        entries.add_options([Option(_line(view), id=str(view.number)) for view in views])
        entries.highlighted = len(views) - 1 if chosen is None else min(chosen, len(views) - 1)

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        if self.look(self.session.refresh):
            self._fill(self.query_one(PickList).highlighted)

    def action_strike(self) -> None:
        at = self.query_one(PickList).highlighted
        if at is None:
            return
        views = self.session.history()
        number = _striker(views, views[at]) if views[at].struck else views[at].number
        answer = self.attempt(lambda: self.session.strike(number))
        if answer is not None:
            self.tell(answer.sentence, bad=answer.bad_news)
            self._fill(at)

    def action_close(self) -> None:
        self.dismiss()


def _line(view: EntryView) -> Content:
    sign = "✗ struck out: " if view.struck else ""
    step = f"step {view.step}" if view.step else ""
    return Content.assemble(
        said(f"{view.number:>4}  {entry_moment(view.at)}  {step:<8}  ", QUIET),
        one_line(f"{sign}{view.text}", f"strike {QUIET}" if view.struck else ""),
    )


def _striker(views: tuple[EntryView, ...], struck: EntryView) -> int:
    """The entry that struck this one out, so that striking it brings this one back."""
    return next((v.number for v in views if v.strikes == struck.number and not v.struck), struck.number)
