"""Rolling: plate is rolled round into a tube or a cone."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coach.forms import Form
from coach.forms.socket import Socket
from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Words, mm, say


class Roll(Operation):
    """The middle of the plate keeps its width; the edges are left to meet, not welded."""

    DOES = frozenset({Does.BENDS})
    KEEPS_SECTION = "a rolled wall is as thick as its plate, and goes as far round as that is wide"
    SUMMARY = (
        "Hollow the plate in the swage, then roll both edges round a mandrel, a little each in turn, until "
        "they meet."
    )
    ACCOUNT = "nothing: the plate becomes the wall; the middle of the plate keeps its width"
    FORM = "socket"
    HEATS = 3
    LIGHT = True

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How wide the plate is to be at either end: π·(D − w), along the middle of the wall."""
        if isinstance(after, Socket):
            wall = after.wall_mm
            mouth, end = (math.pi * (one - wall) for one in (after.mouth_diameter_mm, after.end_diameter_mm))
            yield say(
                "Round the middle of the wall it is {} at the mouth and {} at the narrow end: so wide must "
                "the plate be there before it is rolled.",
                mm(mouth),
                mm(end),
            )
