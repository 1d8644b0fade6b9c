"""Operations that move no metal on purpose: the zone keeps its sizes and loses what its heats scale off."""

from __future__ import annotations

from coach.operations.base import Operation
from coach.operations.does import HeatKind
from coach.quantities import Kind


class Idle(Operation):
    """A step without a new shape: it is looked at, trued, joined up or heat-treated."""

    RESHAPES = False


class Cold(Idle):
    """The fire has no part in it, or warms it too little to scale."""

    HEATS = 0
    HEAT_KIND = HeatKind.COLD


class Treatment(Idle):
    """The steel is changed by heat alone."""

    HEAT_KIND = HeatKind.TREATMENT
    UNDONE_BY_FIRE = True
    EXTRAS = {"temperature": Kind.TEMPERATURE, "soak": Kind.TIME}
    GROWS = {"soak": True}
