"""Riveting: a shank is headed over what it holds together, and nothing is merged."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from coach.forms import Form
from coach.forms.rivet import Rivet as Headed
from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind, Words, mm, say

#: What a round head takes of its shank's length, in diameters (common practice, no source).
HEAD_TAKES: Final = 1.5


class Rivet(Operation):
    """The zone is the rivet, or the tenon; the pieces that it holds stay what they are.

    What stands out beyond the grip is upset into the head. A tenon has one head, and so has a rivet before it
    is set.
    """

    DOES = frozenset({Does.FASTENS})
    KEEPS_SECTION = "a shank is as thick as its rod"
    SUMMARY = (
        "Back up the head that is there, upset the end that stands out straight down until it fills its "
        "hole, then round it over from its rim."
    )
    ALSO_CALLED = ("head", "clinch")
    ACCOUNT = (
        "nothing: the end becomes the head; `grip` is what it holds together, and what is held is not merged;"
        " a tenon, and a rivet not yet set, have `heads: one`"
    )
    FORM = "rivet"
    GATHERS = True
    EXTRAS = {"gap": Kind.GAP}
    GROWS = {"gap": False}
    HAZARDS = ("rivet",)

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How far the end must stand out for its head, and what a round head usually takes."""
        if isinstance(after, Headed):
            stands_mm = after.head_mm3 / (math.pi / 4 * after.diameter_mm**2)
            yield say(
                "The head takes {} of the shank, {} times its thickness: so far it must stand out. A round "
                "head usually takes {} times.",
                mm(stands_mm),
                f"{stands_mm / after.diameter_mm:.2g}",
                f"{HEAD_TAKES:g}",
            )
