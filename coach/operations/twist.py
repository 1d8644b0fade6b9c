"""Twisting: a bar is turned about its own axis."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import Form
from coach.forms.twisted_bar import TwistedBar
from coach.forms.twisted_taper import TwistedTaper
from coach.operations.base import Operation
from coach.quantities import Words, mm, say


class Twist(Operation):
    """The metal stays where it is along the bar, but for the little that the bar shortens and swells."""

    KEEPS_SECTION = "what is turned keeps its section, and on a round bar no twist shows"
    SUMMARY = (
        "Heat it evenly all along, hold one end in the vice and turn the other with a wrench; a little water "
        "on what runs ahead."
    )
    ALSO_CALLED = ("wring",)
    ACCOUNT = (
        "nothing: the bar shortens a little and swells as much; `turn` is how far along one turn takes; a"
        " `form` of twisted taper may be named"
    )
    FORM = "twisted bar"
    GATHERS = True  # what it shortens by swells the section
    GAUGE = "rule"
    HAZARDS = ("wrench",)

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How many turns that is, and how long its corner comes to be."""
        if isinstance(after, TwistedBar | TwistedTaper):
            yield say(
                "That is {} turns. Its corner is then {} long along the helix, on a twist of {}.",
                f"{after.turns:.3g}",
                mm(after.corner_mm),
                mm(after.length_mm),
            )
