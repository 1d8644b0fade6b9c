"""Where a head, or a whole tool, balances."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from coach.quantities.checks import finite
from coach.quantities.figure import grams
from coach.quantities.refusal import OutOfRange


class MassAt(NamedTuple):
    """One piece of a tool as it hangs on the line along which it is balanced."""

    mass_g: float
    centre_mm: float  # of its mass, from an origin of one's own choosing; below 0 on its other side


def balance_mm(parts: Sequence[MassAt]) -> float:
    """Where the parts balance together, in mm from the same origin: Σ m x / Σ m.

    Raises OutOfRange for no part, or one without a mass. Elementary statics.

    >>> balance_mm([MassAt(900, -10), MassAt(300, 40)])
    2.5
    """
    if not parts:
        raise OutOfRange("Nothing balances without a part; give the mass and the middle of at least one.")
    for part in parts:
        if not 0.0 < part.mass_g < math.inf:
            raise OutOfRange(
                "A part must weigh more than nothing, not {}; weigh it again.", grams(part.mass_g)
            )
        finite(part.centre_mm, "place of a part along the tool")
    moment_g_mm = finite(math.fsum(part.mass_g * part.centre_mm for part in parts), "moment")
    return moment_g_mm / finite(math.fsum(part.mass_g for part in parts), "mass")
