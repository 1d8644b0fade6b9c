"""Dishing: a plate is sunk into a hollow until it is a bowl."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import Form
from coach.forms.bowl import Bowl
from coach.forms.disc import Disc
from coach.operations.base import Operation
from coach.quantities import Words, mm, say


class Dish(Operation):
    """How far across and how deep it comes is the smith's; the wall thins as the plate is stretched."""

    SUMMARY = (
        "Sink the round plate into the swage block's hollow with the ball of the hammer, from the rim "
        "inwards in rings; smooth it over a stake."
    )
    ALSO_CALLED = ("sink", "raise", "hollow", "dome", "cup")
    ACCOUNT = "nothing: the plate becomes the bowl, and its wall follows from the metal"
    FORM = "bowl"
    HEATS = 3
    LIGHT = True

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How far the plate is thinned, and how wide a round plate would make the bowl."""
        if not isinstance(after, Bowl):
            return
        if isinstance(before, Disc):
            yield say(
                "A plate of {} is stretched to a wall of {}; as thick as that from the first it would be a "
                "round of {}.",
                *(mm(before.thickness_mm), mm(after.wall_mm), mm(after.blank_mm())),
            )
        else:
            yield say(
                "A round plate as thick as the wall, {}, is {} across before it is sunk.",
                *(mm(after.wall_mm), mm(after.blank_mm())),
            )
