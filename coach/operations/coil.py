"""Coiling: a bar is wound round a mandrel."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import Form
from coach.forms.coil import Coil as Wound
from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Words, mm, say


class Coil(Operation):
    """The bar's middle keeps its length, so how long the coil comes follows from the metal."""

    DOES = frozenset({Does.BENDS})
    KEEPS_SECTION = "what is wound keeps the section of its bar"
    SUMMARY = (
        "Hold its end on the mandrel, wind the bar round turn beside turn, and open the turns to the pitch."
    )
    ALSO_CALLED = ("wind", "helix")
    ACCOUNT = (
        "nothing: the middle of the bar keeps its length; `pitch` is how far one turn lies from the next, "
        "`inside` the mandrel, and `wound length`, how long the coil is, follows"
    )
    FORM = "coil"
    HEATS = 3
    LIGHT = True

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How much of the bar is wound up, on what, and how often it goes round."""
        if isinstance(after, Wound):
            yield say(
                "{} of bar go round a mandrel of {} in {} turns, {} of it to each.",
                mm(after.length_mm),
                mm(after.inside_mm),
                f"{after.turns:.3g}",
                mm(after.one_turn_mm),
            )
