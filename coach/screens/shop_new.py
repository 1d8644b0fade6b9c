"""The part of the shop that has a new recipe proposed."""

from __future__ import annotations

from coach.bench.answer import Answer
from coach.screens.finding import FindingScreen
from coach.screens.screen import key
from coach.telling.entered import answer_text

NEW = (key("f9", "new", "New", "Have a new recipe proposed", group="Write"),)


class ProposingShop(FindingScreen):
    """A screen with recipes, which one more may come to."""

    def action_new(self) -> None:
        self.coach.lay_over("new", then=self._proposed)

    def _proposed(self, answer: Answer | None) -> None:
        if answer is not None:
            self.take_recipes()
            self.tell(answer_text(answer, self.shown), bad=answer.bad_news)

    def take_recipes(self) -> None:
        """Read the recipes anew."""
        raise NotImplementedError
