"""The shop: the jobs in hand and the recipes to begin new ones from."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coach.bench.answer import Answer
from coach.bench.glance import JobSummary
from coach.log.status import JobStatus
from coach.quantities.words import counted
from coach.screens.screen import LOOK_EVERY_S, CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.pick_list import PickList
from coach.screens.wording import Ink, joined, one_line
from coach.telling.clock import moment
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

_EMPTY = "No job yet. Choose a recipe below: p shows its plan, Enter begins the job."


class ShopScreen(CoachScreen):
    """Two lists: what is under way, and what can be begun."""

    CSS_PATH = "shop.tcss"
    NAME = "The shop"
    HELP_TEXT = """
        Jobs are listed with the last one touched first, and recipes under them. Enter opens the chosen
        job where it was left, or begins a job from the chosen recipe; the recipe is copied into the job,
        so that a later change to the file does not change work that is under way.

        The first two minutes: Enter begins the chosen recipe, and the bench opens at its first step. Type
        what the gauge reads and press Enter; F2 as the metal comes out of the fire, F3 as it goes back; F4
        when the step is done. F8 takes the last entry back, whatever it was. F1 is there on every screen.

        A recipe of your own is one file in the recipes folder of the coach's settings. One with faults is
        listed too: Enter says what is wrong, and where in the file.
    """
    BINDINGS = [
        key("enter", "choose", "Open or begin", "Open the chosen job, or begin one from the recipe"),
        key("tab", "other_list", "Other list", "Go to the other list"),
        key("p", "plan", "Plan", "Show the plan of the chosen recipe or job"),
        key("a", "aside", "Aside / bring back", "Set the chosen job aside, or bring it back"),
        key("q", "app.quit", "Quit", "Close the coach; everything entered is kept"),
    ]

    def __init__(self, notice: str = "") -> None:
        super().__init__()
        self._notice = notice
        self._jobs: PickList[JobSummary] = PickList(id="jobs")
        self._recipes: PickList[RecipeEntry] = PickList(id="recipes")

    def compose(self) -> ComposeResult:
        empty = Static(_EMPTY, id="no-jobs", markup=False)
        lists = Container(
            Vertical(Static("Jobs", classes="heading"), empty, self._jobs, id="jobs-side"),
            Vertical(Static("Recipes", classes="heading"), self._recipes, id="recipes-side"),
            id="lists",
        )
        yield from self.framed("Between Heats: the shop", lists, AnswerLine())

    def on_mount(self) -> None:
        self._fill_jobs()
        self.tell(self._notice or self._opening())
        (self._jobs if self._jobs.options else self._recipes).focus()
        # Recipes are read from their files after the jobs are on the screen.
        self.once_shown(self._fill_recipes)
        self.set_interval(LOOK_EVERY_S, self.catch_up)

    def _opening(self) -> str:
        return "Enter opens the chosen job." if self._jobs.options else "Nothing is on the anvil yet."

    # ── the lists ────────────────────────────────────────────────────────────────────────────────

    def _fill_jobs(self) -> None:
        jobs = self.attempt(self.coach.shop.jobs)
        if jobs is None:
            return
        self._jobs.fill(jobs, lambda job: _job_words(job, self.shown), self._jobs.highlighted or 0)
        self._jobs.display = bool(jobs)
        self.query_one("#no-jobs").display = not jobs

    def _fill_recipes(self) -> None:
        from coach.recipe.library import recipes_in, why_unread

        recipes = recipes_in(self.coach.folders)
        self._recipes.fill(recipes, _recipe_words, self._first_choice(recipes))
        if not recipes:
            self._recipes.add_option(Option(one_line("No recipe was found.", Ink.QUIET), disabled=True))
        if unread := why_unread(self.coach.folders):
            self.tell(unread, bad=True)

    def _first_choice(self, recipes: Sequence[RecipeEntry]) -> int:
        """The recipe to begin with: in a shop without a job the shortest, which teaches the bench."""
        sound = [at for at, recipe in enumerate(recipes) if not recipe.faults]
        if self._jobs.options or not sound:
            return 0
        at = min(sound, key=lambda one: recipes[one].steps)
        steps = counted(recipes[at].steps, "step")
        self.tell(
            f"New here? Enter begins {recipes[at].title} to try the bench with: {steps}. "
            f"F1 tells the first two minutes."
        )
        return at

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        if self.look(self.coach.shop.log.changed):
            self._fill_jobs()

    def _job(self) -> JobSummary | None:
        return self._jobs.chosen if self._jobs.has_focus else None

    def _recipe(self) -> RecipeEntry | None:
        """The chosen recipe; of one with faults they are shown, and nothing else can be done with it."""
        recipe = self._recipes.chosen if self._recipes.has_focus else None
        if recipe is None or not recipe.faults:
            return recipe
        self.coach.lay_over("faults", recipe.name, recipe.faults)
        return None

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        event.option_list.focus()
        self.action_choose()

    def action_choose(self) -> None:
        if (job := self._job()) is not None:
            if job.state is JobStatus.DAMAGED:
                self.tell(write(job.trouble, self.shown), bad=True)
            else:
                self.attempt(lambda: self.coach.show_job(self.coach.shop.open(job.job)))
        elif (recipe := self._recipe()) is not None:
            self.coach.begin_job(self, Path(recipe.path))

    def action_plan(self) -> None:
        if (job := self._job()) is not None:
            self.attempt(lambda: self.coach.lay_over("plan", self.coach.shop.open(job.job)))
        elif (recipe := self._recipe()) is not None:
            self.attempt(lambda: self._show_plan(Path(recipe.path)))

    def _show_plan(self, path: Path) -> None:
        from coach.ledger.looking_back import look_back
        from coach.recipe.reader import read_recipe_file

        self.coach.lay_over("plan", look_back(read_recipe_file(path)), path)

    def action_aside(self) -> None:
        job = self._job()
        if job is None or job.state is JobStatus.DAMAGED:
            self.tell("Choose a job to set aside.", bad=True)
            return
        answer = self.attempt(lambda: self._put_aside(job))
        if answer is not None:
            self.tell(f"{job.title}: {answer_text(answer, self.shown)}")
            self._fill_jobs()

    def _put_aside(self, job: JobSummary) -> Answer:
        session = self.coach.shop.open(job.job)
        return session.bring_back() if job.state is JobStatus.SET_ASIDE else session.set_aside()

    def action_other_list(self) -> None:
        (self._recipes if self._jobs.has_focus or not self._jobs.options else self._jobs).focus()


def _job_words(job: JobSummary, shown: Shown) -> Content:
    if job.state is JobStatus.DAMAGED:
        return _entry(job.title, "", one_line(f"✗ {write(job.trouble, shown)}", Ink.BAD, indent=2))
    steps = counted(job.steps, "step")
    where = f"step {job.step} of {job.steps}, {job.step_title}" if job.step_title else steps
    told = f"{job.state} · {where} · {moment(job.last_at)}"
    return _entry(job.title, job.job, one_line(told, Ink.QUIET, indent=2))


def _recipe_words(recipe: RecipeEntry) -> Content:
    if recipe.faults:
        told = f"✗ {counted(len(recipe.faults), 'fault')}: Enter shows where"
        return _entry(recipe.name, "", one_line(told, Ink.BAD))
    told = ", ".join(part for part in (counted(recipe.steps, "step"), recipe.duration) if part)
    summary = one_line(recipe.summary, Ink.QUIET, indent=2).truncate(200, ellipsis=True)
    return _entry(recipe.title, told, summary)


def _entry(title: str, beside: str, below: Content) -> Content:
    """Two lines about one thing; what is beside its title may be empty."""
    aside = one_line(beside, Ink.QUIET, indent=2 if beside else 0)
    return joined([Content.assemble(one_line(title, Ink.STRONG), aside), below])
