"""Collaring: bars are held together by a collar closed round them, and nothing is merged."""

from __future__ import annotations

import math
from collections.abc import Iterator

from coach.forms import Form
from coach.forms.collar import Collar as Closed
from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind, Words, mm, say


class Collar(Operation):
    """The zone is the collar; the bars that it holds stay what they are."""

    DOES = frozenset({Does.BENDS, Does.FASTENS})
    KEEPS_SECTION = "a collar keeps the section of its bar"
    SUMMARY = (
        "Bend it to a U on the mandrel, heat it well, set it over the bars and close both legs with quick "
        "light blows: it shrinks tight."
    )
    ALSO_CALLED = ("band", "bind")
    ACCOUNT = (
        "nothing: the middle of the bar keeps its length; how high a bundle it closes round follows from the "
        "metal, and the bars that are held are not merged"
    )
    FORM = "collar"
    LIGHT = True
    HEATS = 2
    EXTRAS = {"gap": Kind.GAP}
    GROWS = {"gap": False}

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How long the bar is for it."""
        if isinstance(after, Closed):
            corners_mm = math.pi * after.thickness_mm
            words = "It takes {} of bar: {} round the bundle and {} for its four corners."
            yield say(words, mm(after.length_mm), mm(after.length_mm - corners_mm), mm(corners_mm))
