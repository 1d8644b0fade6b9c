"""The shop: the jobs in hand and the recipes to begin new ones from."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.geometry import Size
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from coach.bench.glance import JobSummary
from coach.log.status import JobStatus
from coach.quantities.words import counted
from coach.screens.glances import Glances
from coach.screens.places import keys_from
from coach.screens.reply import ask
from coach.screens.screen import LOOK_EVERY_S, key
from coach.screens.shop_face import face_of_job, face_of_recipe
from coach.screens.shop_new import NEW
from coach.screens.shop_picture import finished, plan_of
from coach.screens.shop_rows import job_row, place_of, recipe_row, rule_of_jobs, rule_of_recipes, title_of
from coach.screens.shop_seeking import SeekingShop
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.face import Face, rows_of_figures
from coach.screens.widgets.find_line import FindLine, found
from coach.screens.widgets.picture import Picture
from coach.screens.wording import Ink, one_line
from coach.telling.words import write

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

_EMPTY = "No job yet. Choose a recipe below: Ctrl+L shows its plan, Enter begins the job."
_FINDS = "letters find a job or a recipe"
#: So many jobs are looked at of themselves; another is when it is chosen.
_LOOKED_AT = 30
#: So many are read before the list is shown, so many at a time after that, so many are listed (our choice).
_READ_AT_ONCE, _READ_ON, _MOST_ROWS = 60, 20, 300
_FACE_FROM_ROWS = 16
_PICTURE_FROM = (140, 40)


class ShopScreen(SeekingShop):
    """Two lists, what is under way and what can be begun, under the face of what is chosen."""

    CSS_PATH = "shop.tcss"
    NAME = "The shop"
    HELP_TEXT = """
        Jobs are listed with the last one touched first, and recipes under them. Enter opens the chosen
        job where it was left, or begins a job from the chosen recipe; the recipe is copied into the job,
        so that a later change to the file does not change work that is under way. Letters that are typed
        find what is called so; Esc shows all again.

        Above stands what is chosen: the step in hand, what to read first, what to put right, how long the
        job has lain, and how it stands against its drawing.

        The first two minutes: Enter begins the chosen recipe, and the bench opens at its first step. Type
        what the gauge reads and press Enter; F2 as the metal comes out of the fire, F3 as it goes back; F4
        when the step is done. F8 takes the last entry back, of a job just begun the job itself. F1 is there
        on every screen.

        A recipe of your own is one file in the recipes folder of the settings; Ctrl+N has one proposed.
        One with faults is listed too: Enter says what is wrong, and where in the file.
    """
    BINDINGS = [
        key(
            "enter",
            "choose",
            "Open",
            "Open the chosen job, or begin one from the recipe",
            group="Go",
        ),
        key("tab", "other_list", "Lists", "Go to the other list", group="See"),
        key("ctrl+l", "plan", "Plan", "Show the plan of the chosen recipe or job", group="See"),
        key("ctrl+e", "sheet", "Sheet", "The drawing against the tool of the chosen job", group="See"),
        key("ctrl+a", "aside", "Aside", "Set the chosen job aside, or bring it back", group="Write"),
        *NEW,
        *keys_from("shop"),
        key("f10", "app.quit", "Close", "Close the coach"),
        key(
            "escape", "find_all", "All", "Show all again after something was sought", show=False, group="See"
        ),
    ]

    def __init__(self, notice: str = "") -> None:
        super().__init__()
        self._notice = notice
        self._to_begin_with = "Nothing is on the anvil yet."
        self._all_recipes: tuple[RecipeEntry, ...] | None = None  # None until they are read
        self._glances: Glances | None = None
        self._filled_at: Size | None = None
        self._pictured: object = None  # what the picture shows

    def compose(self) -> ComposeResult:
        lists = Vertical(
            Static(id="jobs-rule", markup=False),
            Static(_EMPTY, id="no-jobs", markup=False),
            self._jobs,
            Static(id="recipes-rule", markup=False),
            self._recipes,
            id="lists",
        )
        body = Horizontal(lists, Picture(id="finished"), id="shop")
        yield from self.framed("The shop", Face(), body, AnswerLine(), FindLine(_FINDS))

    def on_mount(self) -> None:
        self._glances = Glances(self.coach.shop, self.coach.memory)
        self._take_jobs()
        (self._jobs if self._all_jobs else self._recipes).focus()
        self.tell(self._notice or self._opening())
        self.set_interval(LOOK_EVERY_S, self.catch_up)
        # Recipes are read from their files, and jobs looked at, after the list of them is on the screen.
        self.once_shown(self._go_on)

    def _opening(self) -> str:
        return "" if self._all_jobs else self._to_begin_with

    # ── what is shown ────────────────────────────────────────────────────────────────────────────

    def on_resize(self) -> None:
        if self._glances is not None and self._filled_at != self.app.size:
            self._fill()

    def _take_jobs(self) -> None:
        assert self._glances is not None
        self.attempt(self._glances.look)
        self.attempt(partial(self._glances.read_on, max(0, _READ_AT_ONCE - self._glances.known)))
        self._all_jobs = self._glances.jobs()
        self._fill()

    def _read_on(self) -> None:
        """Read some more jobs; of very many those that are known are listed anew once they have doubled."""
        glances = self._glances
        assert glances is not None
        self.attempt(partial(glances.read_on, _READ_ON))
        if glances.unread and glances.known < 2 * len(self._all_jobs):
            return
        self._all_jobs = glances.jobs()
        if self.sought:
            self.show_found()
        else:
            self._fill()

    def _fill(self) -> None:
        """Both lists, with what is looked for, in the room there is."""
        self._filled_at = self.app.size
        sought = self.sought
        jobs = found(sought, self._all_jobs, lambda job: (job.title, job.job))
        recipes = found(sought, self._all_recipes or (), lambda one: (one.title, one.name))
        at_job, at_recipe = self._jobs.chosen, self._recipes.chosen
        more = len(jobs) - _MOST_ROWS
        self._jobs.fill(jobs[:_MOST_ROWS], self._job_row, place_of(at_job, jobs[:_MOST_ROWS], "job"))
        if more > 0:
            told = f"{counted(more, 'more job')}: letters find any of them"
            self._jobs.add_option(Option(one_line(told, Ink.QUIET, indent=2), disabled=True))
        self._recipes.fill(recipes, self._recipe_row, place_of(at_recipe, recipes, "path"))
        if self._all_recipes == ():
            none = f"No recipe was found. Your own are looked for in {self.coach.folders[0]}"
            self._recipes.add_option(Option(one_line(none, Ink.QUIET, indent=2), disabled=True))
        self._jobs.display = bool(jobs)
        self.query_one("#no-jobs").display = not self._all_jobs
        self.query_one("#jobs-rule", Static).update(rule_of_jobs(self._room, self._all_jobs))
        self.query_one("#recipes-rule", Static).update(rule_of_recipes(self._room))
        self.query_one("#title", Static).update(title_of(self._all_jobs, self._unread))
        self.show_chosen()

    @property
    def _unread(self) -> int:
        return self._glances.unread if self._glances is not None else 0

    def show_chosen(self) -> None:
        """The face of the job or the recipe that is chosen, as far as it is known."""
        width, height = self.app.size
        rows = rows_of_figures(width, height) if height >= _FACE_FROM_ROWS else 0
        job, recipe = self._job(), self._recipe()
        blocks = []
        if job is not None and self._glances is not None:
            blocks = face_of_job(job, self._glances.of(job.job), self.shown, self.coach.now(), width, rows)
        elif recipe is not None:
            blocks = face_of_recipe(recipe, width, rows)
        self.query_one(Face).show(blocks, rows)
        self.query_one(Picture).display = self._is_roomy

    @property
    def _is_roomy(self) -> bool:
        """Whether there is room for a picture beside the lists."""
        width, height = self.app.size
        return width >= _PICTURE_FROM[0] and height >= _PICTURE_FROM[1]

    @property
    def _room(self) -> int:
        """The cells that a row may take."""
        return max(self.app.size.width * (3 if self._is_roomy else 5) // 5 - 3, 1)

    def _job_row(self, job: JobSummary) -> Content:
        told = self._glances.of(job.job) if self._glances is not None else None
        return job_row(job, told, self._room, self.coach.now())

    def _recipe_row(self, recipe: RecipeEntry) -> Content:
        return recipe_row(recipe, self._room)

    # ── what takes a while ───────────────────────────────────────────────────────────────────────

    def _go_on(self) -> None:
        """The next thing that the first frame did not wait for, one at a time, so that keys come between."""
        if self._all_recipes is None:
            self.take_recipes()
        elif (job := self._next_to_look_at()) is not None:
            self._look_at(job)
        elif self._pictured is not self._chosen():
            self._picture()
        elif self._unread:
            self._read_on()
        else:
            if self._glances is not None:
                self._glances.keep()
            return
        self.once_shown(self._go_on)

    def _next_to_look_at(self) -> JobSummary | None:
        """The chosen job first, then those at the head of the list."""
        glances, job = self._glances, self._job()
        first = [job] if job is not None else []
        wanting = (
            one
            for one in (*first, *self._all_jobs[:_LOOKED_AT])
            if one.state is not JobStatus.DAMAGED and glances is not None and glances.is_wanting(one.job)
        )
        return next(wanting, None)

    def _look_at(self, job: JobSummary) -> None:
        assert self._glances is not None
        self.attempt(partial(self._glances.take, job.job))
        self._jobs.tell(job, self._job_row(job))
        self.show_chosen()

    def take_recipes(self) -> None:
        from coach.bench.heats_planned import heats_planned
        from coach.recipe.library import recipes_in, why_unread

        self._all_recipes = recipes = recipes_in(self.coach.folders, heats_planned)
        self._fill()
        if not self._all_jobs:
            self._recipes.highlighted = self._first_choice(recipes)
        if unread := why_unread(self.coach.folders):
            self.tell(unread, bad=True)

    def _picture(self) -> None:
        """The finished piece of what is chosen, where there is room for it."""
        self._pictured = chosen = self._chosen()
        picture = self.query_one(Picture)
        if not picture.display or chosen is None:
            return
        plan = self.attempt(lambda: plan_of(chosen, self.coach.shop))
        title, views = finished(plan)
        picture.show_views(title, views, (), self.shown)

    def _first_choice(self, recipes: Sequence[RecipeEntry]) -> int:
        """The recipe to begin with in a shop without a job: the shortest, which teaches the bench."""
        sound = [at for at, recipe in enumerate(recipes) if not recipe.faults]
        if not sound:
            return 0
        at = min(sound, key=lambda one: recipes[one].steps)
        steps = counted(recipes[at].steps, "step")
        begin = f"New here? Enter begins {recipes[at].title} to try the bench with: {steps}. "
        self._to_begin_with = f"{begin}F1 tells the first two minutes."
        self.tell(self._to_begin_with)
        return at

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        if self.look(self.coach.shop.log.changed):
            self.jobs_changed()

    def jobs_changed(self) -> None:
        self._take_jobs()
        self.once_shown(self._go_on)

    # ── what is chosen ───────────────────────────────────────────────────────────────────────────

    def _job(self) -> JobSummary | None:
        return self._jobs.chosen if self._jobs.has_focus else None

    def _recipe(self) -> RecipeEntry | None:
        return self._recipes.chosen if self._recipes.has_focus else None

    def _chosen(self) -> JobSummary | RecipeEntry | None:
        return self._job() or self._recipe()

    def _sound_recipe(self) -> RecipeEntry | None:
        """The chosen recipe; of one with faults they are shown, and nothing else can be done with it."""
        recipe = self._recipe()
        if recipe is None or not recipe.faults:
            return recipe
        self.coach.lay_over("faults", recipe.name, recipe.faults)
        return None

    @on(OptionList.OptionHighlighted)
    @on(events.DescendantFocus)
    def _another_is_chosen(self) -> None:
        self.asks_of_another()
        line, recipe = self.query_one(AnswerLine), self._recipe()
        if recipe is not None and line.said == self._to_begin_with and recipe.title not in line.said:
            self.tell("")  # Enter begins another one now
        self.show_chosen()
        self.once_shown(self._go_on)

    def way_to_the_bench(self) -> str:
        job, recipe = self._job(), self._recipe()
        if job is not None:
            return f"Enter opens {job.title} there."
        return f"Enter begins {recipe.title} there." if recipe is not None else ""

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        event.option_list.focus()
        self.action_choose()

    def action_choose(self) -> None:
        if (job := self._job()) is not None:
            if job.state is JobStatus.DAMAGED:
                self.tell(write(job.trouble, self.shown), bad=True)
            elif job.state is JobStatus.FINISHED:
                self.action_sheet()
            else:
                self.attempt(lambda: self.coach.show_job(self.coach.shop.open(job.job)))
        elif (recipe := self._sound_recipe()) is not None and not self.refuses_a_size():
            begin = partial(self.coach.begin_job, self, Path(recipe.path))
            if self.was_led_here():  # a stray letter and an Enter begin nothing
                asked = f"Begin {recipe.title}? A job is in hand. Enter again begins it, Esc shows all again."
                ask(self, asked, begin, self.action_find_all, by_enter=True)
            else:
                begin()

    def action_plan(self) -> None:
        if (job := self._job()) is not None:
            self.attempt(lambda: self.coach.lay_over("plan", self.coach.shop.open(job.job)))
        elif (recipe := self._sound_recipe()) is not None:
            self.attempt(lambda: self._show_plan(Path(recipe.path)))

    def action_sheet(self) -> None:
        if (job := self._job()) is not None:
            self.attempt(lambda: self.coach.lay_over("sheet", self.coach.shop.open(job.job)))
        else:
            self.tell("Choose a job: a recipe has no sheet before it is begun.", bad=True)

    def _show_plan(self, path: Path) -> None:
        from coach.ledger.looking_back import look_back
        from coach.recipe.reader import read_recipe_file

        plan = look_back(read_recipe_file(path))
        self.coach.lay_over("plan", plan, path, self.coach.shop.begins_with(plan.recipe))

    def action_open(self, place: str) -> None:
        self.coach.lay_over(place)

    def action_other_list(self) -> None:
        self.set_focus(self._recipes if self._jobs.has_focus or not self._jobs.options else self._jobs)
        self.seeks_from_here()
