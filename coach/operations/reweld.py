"""Welding again: a joint that has not taken everywhere is closed at another welding heat."""

from __future__ import annotations

from coach.operations.does import HeatKind
from coach.operations.idle import Idle
from coach.quantities import Kind


class Reweld(Idle):
    """The steel lies in its place already, so nothing is laid on and no size is aimed at."""

    SUMMARY = (
        "Brush the joint bright, flux where it is open, bring it to a welding heat once more and close it "
        "from the middle out, light and quick."
    )
    ACCOUNT = "nothing: the steel lies in its place; the scale of its heat comes off"
    HEAT_KIND = HeatKind.WELDING
    EXTRAS = {"temperature": Kind.TEMPERATURE}
