"""Where the steps and the zones of a recipe stand in its file, for what is found wrong with them later."""

from __future__ import annotations

from functools import lru_cache

from coach.quantities.units import System
from coach.recipe import words
from coach.recipe.findings import Path, Place
from coach.recipe.keys import unit_of
from coach.recipe.spelling import Speller
from coach.recipe.tree import read_plain


class Whereabouts:
    """The places in a text that was read without a fault."""

    def __init__(self, text: str, source: str) -> None:
        plain = read_plain(text.removeprefix("\ufeff"), source)
        speller = Speller(plain.tree, unit_of(plain.tree))
        self.system: System = "in" if unit_of(plain.tree) == "in" else "mm"  # of its bare numbers
        steps = speller.spell().get("steps")
        self._steps = steps if isinstance(steps, list) else []
        self.steps = len(self._steps)  # how many there are
        self._places, self._origins = plain.places, speller.origins

    @classmethod
    @lru_cache(maxsize=8)
    def within(cls, text: str, source: str) -> Whereabouts:
        """The same, remembered: a bench asks for it at every reading."""
        return cls(text, source)

    def of(self, step: int, zone: str = "") -> Place:
        """The line and column of a step, or with step 0 of a zone; of the beginning where neither is told."""
        if step:
            return self._at(("steps", step - 1, "do"))
        return self._at(("drawing", zone)) if zone else (1, 1)

    def of_size(self, step: int, zone: str) -> Place:
        """Those of what a step makes of a zone: the zone's own where the step is to make the drawing."""
        told = self._steps[step - 1] if 0 < step <= self.steps else None
        by_drawing = isinstance(told, dict) and told.get("to") == words.DRAWING and "besides" not in told
        return self.of(0 if zone and by_drawing else step, zone)

    def of_heat(self, step: int) -> Place:
        """Those of the heat of a step: where it is said once for many, and else the step's own."""
        for name in ("colour", "temperature"):
            origin = self._origins.values.get(("steps", step - 1, name))
            if origin is not None and origin[:1] != ("steps",):
                return self._places.of(origin)
        return self.of(step)

    def of_bar(self, piece: str) -> Place:
        """Those of the bar that a piece is taken from."""
        return self._at(("pieces", piece, "stock"))

    def of_head(self, key: str) -> Place:
        """Those of a key of the recipe's head."""
        return self._at((key,))

    def _at(self, path: Path) -> Place:
        return self._places.of(self._origins.of(path, at_key=True))
