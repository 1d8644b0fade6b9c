"""One thing that a recipe cannot do, as weighing finds it."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from coach.quantities import Words, say
from coach.recipe.model import Step


class Cannot(StrEnum):
    """What will not work."""

    GATHER = "gathers no metal"  # a section grows and nothing upsets it
    MAKE_DRAWING = "ends beside the drawing"
    LEAVE_STEEL = "leaves too little steel"
    REMOVE_SKIN = "leaves the skin"
    HARDEN = "no steel to harden"
    HARDEN_FROM = "not a heat to harden from"
    TEMPER_TO = "not a heat for that hardness"
    HOLD_STEEL = "no cleft for the steel"


class Finding(NamedTuple):
    """One thing that will not work."""

    what: Cannot  # what will not work
    step: int  # the step that it shows at; 0 for the drawing
    zone: str  # the zone; empty where it is the whole step
    sentence: Words  # what is wrong, with its figures


def at_step(what: Cannot, step: Step, words: Words, zone: str = "") -> Finding:
    """A finding whose sentence begins with its step."""
    return Finding(what, step.number, zone, say("Step {}, {}: {}", step.number, step.title, words))
