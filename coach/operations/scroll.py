"""Scrolling: a bar is curled up from its end."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import Form
from coach.forms.round_scroll import RoundScroll
from coach.forms.scroll import Scroll as Curl
from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Words, mm, say


class Scroll(Operation):
    """The bar's middle keeps its length, so how far across it comes follows from the metal."""

    DOES = frozenset({Does.BENDS})
    KEEPS_SECTION = "what is curled keeps the section of its bar"
    SUMMARY = (
        "Start the eye over the far edge, turn the bar over and roll it up with light blows, or by the jig."
    )
    ALSO_CALLED = ("curl",)
    ACCOUNT = (
        "nothing: the middle of the bar keeps its length; `pitch` is how far one turn lies from the next"
    )
    FORM = "scroll"
    HEATS = 2
    LIGHT = True
    GAUGE = "rule"

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How much of the bar is rolled up, and how often it goes round."""
        if isinstance(after, Curl | RoundScroll):
            turns = f"{after.spiral.turns:.3g}"
            yield say(
                "{} of bar roll up in {} turns, out to {} across.",
                mm(after.length_mm),
                turns,
                mm(after.across_mm),
            )
