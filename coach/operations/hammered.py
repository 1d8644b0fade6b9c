"""Operations whose blows and heats follow from how far a section goes."""

from __future__ import annotations

from coach.operations.base import Operation
from coach.operations.does import Does
from coach.quantities import Kind


class Hammered(Operation):
    """A section is hammered to another one."""

    DOES = frozenset({Does.HAMMERS_A_SECTION})
    HEATS = 2


class Thinned(Hammered):
    """It gives way bite by bite, each half the width along the bar unless the recipe says."""

    BITE_SHARE = 0.5
    AMOUNTS = {"bite": Kind.LENGTH}
