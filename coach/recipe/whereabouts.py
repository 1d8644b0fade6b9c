"""Where the steps and the zones of a recipe stand in its file, for what is found wrong with them later."""

from __future__ import annotations

from coach.recipe.findings import Path, Place
from coach.recipe.keys import unit_of
from coach.recipe.spelling import Speller
from coach.recipe.tree import read_plain


class Whereabouts:
    """The places in a text that was read without a fault."""

    def __init__(self, text: str, source: str) -> None:
        plain = read_plain(text, source)
        speller = Speller(plain.tree, unit_of(plain.tree))
        speller.spell()
        self._places, self._origins = plain.places, speller.origins

    def of(self, step: int, zone: str = "") -> Place:
        """The line and column of a step, or with step 0 of a zone; of the beginning where neither is told."""
        if step:
            return self._at(("steps", step - 1, "do"))
        return self._at(("drawing", zone)) if zone else (1, 1)

    def _at(self, path: Path) -> Place:
        return self._places.of(self._origins.of(path, at_key=True))
