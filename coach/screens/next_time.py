"""What a job cost most, at its end, and what to change for the next: each edit shown before it is made."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, Static

from coach.bench.next_time import NextTime
from coach.quantities.refusal import Refusal
from coach.screens.page_content import page_content
from coach.screens.screen import TURNS, LiveScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, one_line
from coach.telling.next_time import next_time_page

WAY_IN = {
    "from": ("sheet",),
    "key": "n",
    "words": "Next time",
    "told": "What cost most, and what to change next time",
    "group": "Write",
}

#: The cells at both sides of the text with its scroll bar, and the widest that a line is read with ease.
_AROUND, _WIDEST = 3, 110
_ALL = "all"


class NextTimeScreen(LiveScreen):
    """Three sentences, each with its edit of the recipe; those that are typed are written to a new recipe."""

    CSS_PATH = "next_time.tcss"
    NAME = "What to do better next time"
    HELP_TEXT = """
        What cost most metal, most heats and most chance, at which step, and what to change of the recipe for
        the next one: a longer mark, a heat more or fewer, a wider limit. Each change stands below as the
        lines of the recipe that go and come, with the chance, the bar and the heats before and after.

        Type metal, heats, chance or several of them, or all, and Enter writes a recipe with those changes
        beside your own recipes. The recipe that this job was begun from stays as it is, and so does the job.
    """
    BINDINGS = [
        key("enter", "write", "Write", "Write the recipe with the changes that are typed", first=False),
        key("escape", "close", "Back", "Go back"),
        *TURNS,
    ]

    _found: NextTime | None = None

    def compose(self) -> ComposeResult:
        prompt = Static(one_line("Which of them?", Ink.STRONG), id="prompt", markup=False)
        title = f"Next time: {self.session.recipe.title}"
        yield from self.framed(title, Lines(can_focus=False), AnswerLine(), prompt, Box())

    def fill(self) -> None:
        """Look at the job as it stands now; nothing is changed by looking."""
        self._found = self.attempt(partial(self.coach.shop.next_time, self.session))
        self._show()
        names = self._names()
        for asking in (self.query_one("#prompt"), self.query_one(Input)):
            asking.display = bool(names)
        self.query_one(Input).placeholder = " ".join(names)
        self.tell_keys()
        if names:
            self.tell(f"Type {', '.join(names)} or {_ALL}, and Enter writes the changed recipe.")
        else:
            self.tell("Nothing of the recipe would better it: there is nothing to change.")

    def on_resize(self) -> None:
        self._show()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Nothing is written where nothing is to be changed."""
        return bool(self._names()) if action == "write" else True

    def _names(self) -> tuple[str, ...]:
        costs = self._found.costs if self._found is not None else ()
        return tuple(cost.of for cost in costs if cost.edit is not None)

    def _show(self) -> None:
        if self._found is not None:
            width = min(self.app.size.width - _AROUND, _WIDEST)
            self.query_one(Lines).show(page_content(next_time_page(self._found, self.shown), width))

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        self.action_write()

    def action_write(self) -> None:
        """Write the recipe with the changes that are typed; what is wrong is told."""
        typed = self.query_one(Input).value.replace(",", " ").split()
        path = self.attempt(partial(self._written, typed))
        if path is not None:
            self.query_one(Input).value = ""
            self.tell(f"The recipe with that is {path.stem}: {path}.")

    def _written(self, typed: list[str]) -> Path:
        """The file of the changed recipe; raises Refusal."""
        from coach.bench.next_time import with_edits
        from coach.recipe.own_file import write_own

        names = self._names()
        wanted = names if typed == [_ALL] else tuple(dict.fromkeys(typed))
        if self._found is None or not wanted or any(one not in names for one in wanted):
            such = f"type {', '.join(names)} or {_ALL}." if names else "there is nothing to change."
            raise Refusal(f"{' '.join(typed)[:40]!r} is no change that is offered: {such}")
        recipe = self.session.recipe_begun_by
        text = with_edits(recipe, self._found, wanted)
        return write_own(self.coach.folders[0], f"{recipe.name}-next", text)
