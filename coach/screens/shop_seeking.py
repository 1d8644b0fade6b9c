"""The part of the shop that finds what is typed: the job in hand before what can be begun."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from coach.bench.glance import JobSummary
from coach.log.status import JobStatus
from coach.screens.shop_aside import AsideShop
from coach.screens.widgets.find_line import FindLine
from coach.screens.widgets.row_list import RowList

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

_List: TypeAlias = "RowList[JobSummary] | RowList[RecipeEntry]"


class SeekingShop(AsideShop):
    """A screen with a list of jobs and one of recipes, on which letters find something in both."""

    def __init__(self) -> None:
        super().__init__()
        self._jobs: RowList[JobSummary] = RowList(id="jobs")
        self._recipes: RowList[RecipeEntry] = RowList(id="recipes")
        self._all_jobs: tuple[JobSummary, ...] = ()
        # The list in which the search began, and what was chosen there.
        self._sought_from: tuple[_List, JobSummary | RecipeEntry | None] | None = None

    @property
    def _unread(self) -> int:
        """How many jobs are not read yet."""
        raise NotImplementedError

    def _fill(self) -> None:
        """Show both lists, with what is looked for."""
        raise NotImplementedError

    def _opening(self) -> str:
        """What is said where nothing is looked for."""
        raise NotImplementedError

    def action_find_all(self) -> None:
        if not self.keeps_as_it_is():
            self.query_one(FindLine).seek("")
            self.show_found()

    def show_found(self) -> None:
        """Show what is found, the first of it chosen; in the list where the search began, if it is there.

        Once all is shown again that list and its row are chosen as they were.
        """
        sought = self.sought
        if sought and self._sought_from is None:
            self._sought_from = self._in_focus(), self._in_focus().chosen
        self._fill()
        if sought and not self._jobs.options and not self._recipes.options:
            unread = f" among those read yet; {self._unread} are still to be read" if self._unread else ""
            told = f"Nothing is called {sought.strip()}{unread}. Backspace takes a letter back, Esc all."
            self.tell(told, bad=True)
            return
        began, was = self._sought_from or (self._in_focus(), None)
        other: _List = self._jobs if began is self._recipes else self._recipes
        self.set_focus(began if began.options else other)
        if not sought:
            self._sought_from = None
            if was is not None:
                began.choose(lambda one: one is was)
        begins = sought and self._recipes.has_focus and self._jobs.options
        opening = "" if sought else self._opening()  # it names what Enter begins where all is shown
        self.tell("Enter begins another one; Tab goes to the job in hand." if begins else opening)

    def _in_focus(self) -> _List:
        return self._recipes if self._recipes.has_focus else self._jobs

    def was_led_here(self) -> bool:
        """Whether letters alone have led from the jobs to a recipe, while a job is in hand."""
        in_hand = any(job.state in (JobStatus.UNDER_WAY, JobStatus.RESTING) for job in self._all_jobs)
        return in_hand and bool(self.sought) and (self._sought_from or (None,))[0] is self._jobs

    def seeks_from_here(self) -> None:
        """The smith has gone to the other list: the search goes on from there."""
        if self._sought_from is not None:
            self._sought_from = self._in_focus(), None
