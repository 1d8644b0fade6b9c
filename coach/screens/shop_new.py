"""The part of the shop that has a new recipe proposed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from coach.bench.answer import Answer
from coach.screens.finding import FindingScreen
from coach.screens.screen import key
from coach.screens.widgets.find_line import FindLine
from coach.screens.widgets.row_list import RowList
from coach.telling.entered import answer_text

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

NEW = (
    key("ctrl+n", "new", "New", "Have a new recipe proposed", group="Write"),
    key(
        "ctrl+u",
        "rack",
        "Rack",
        "The bars on the rack, and which suits the recipe",
        show=False,
        group="Write",
    ),
)


class ProposingShop(FindingScreen):
    """A screen with recipes, which one more may come to."""

    def action_new(self) -> None:
        self.coach.lay_over("new", then=self._proposed)

    def _proposed(self, answer: Answer | None) -> None:
        if answer is not None:
            self.query_one(FindLine).seek("")
            self.show_found()
            recipes: RowList[RecipeEntry] = self.query_one("#recipes", RowList)
            known = {one.path for one in recipes.things}
            self.take_recipes()
            recipes.choose(lambda one: one.path not in known)
            recipes.focus()
            self.tell(answer_text(answer, self.shown), bad=answer.bad_news)

    def action_rack(self) -> None:
        """Go to the rack, with the chosen recipe where there is one that can be begun.

        Where something is looked for it takes that away first, as it does where texts are typed.
        """
        if self.sought:
            self.query_one(FindLine).seek("")
            self.show_found()
            self.tell("All is shown again. Ctrl+U once more shows the rack.")
            return
        recipes: RowList[RecipeEntry] = self.query_one("#recipes", RowList)
        chosen = recipes.chosen if recipes.has_focus else None
        sound = chosen is not None and not chosen.faults
        self.coach.lay_over("rack", Path(chosen.path) if chosen is not None and sound else None)

    def take_recipes(self) -> None:
        """Read the recipes anew."""
        raise NotImplementedError
