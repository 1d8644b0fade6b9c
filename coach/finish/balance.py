"""Where a head, or a whole tool, balances."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from coach.quantities.checks import finite
from coach.quantities.refusal import OutOfRange


class MassAt(NamedTuple):
    """One piece of a tool as it hangs on the line along which it is balanced."""

    mass_g: float
    centre_mm: float  # of its mass, from an origin of one's own choosing; below 0 on its other side


class Sides(NamedTuple):
    """The mass on either side of a place, in g."""

    before_g: float
    after_g: float


def mass_g(parts: Sequence[MassAt]) -> float:
    """The mass of all parts, in g; raises OutOfRange for no part, or one without a mass.

    >>> mass_g([MassAt(900, 0), MassAt(300, 40)])
    1200.0
    """
    _check(parts)
    return finite(math.fsum(part.mass_g for part in parts), "mass")


def balance_mm(parts: Sequence[MassAt]) -> float:
    """Where the parts balance together, in mm from the same origin: Σ m x / Σ m.

    Raises OutOfRange for no part, or one without a mass. Elementary statics.

    >>> balance_mm([MassAt(900, -10), MassAt(300, 40)])
    2.5
    """
    _check(parts)
    moment_g_mm = math.fsum(part.mass_g * part.centre_mm for part in parts)
    return finite(moment_g_mm, "moment") / mass_g(parts)


def sides_of(parts: Sequence[MassAt], eye_mm: float) -> Sides:
    """What hangs on either side of the middle of the eye, at `eye_mm`.

    Each part counts whole on the side where its middle lies, and half on each when it lies on the place
    itself; so a part that reaches across is told as two, cut at the eye. Raises OutOfRange as `mass_g`.

    >>> sides_of([MassAt(520, -30), MassAt(480, 35)], 0)
    Sides(before_g=520.0, after_g=480.0)
    """
    _check(parts)
    _check_place(eye_mm)
    on_g = sum(part.mass_g for part in parts if part.centre_mm == eye_mm) / 2.0
    return Sides(
        math.fsum(part.mass_g for part in parts if part.centre_mm < eye_mm) + on_g,
        math.fsum(part.mass_g for part in parts if part.centre_mm > eye_mm) + on_g,
    )


def _check(parts: Sequence[MassAt]) -> None:
    if not parts:
        raise OutOfRange("Nothing balances without a part; give the mass and the middle of at least one.")
    for part in parts:
        if not 0.0 < part.mass_g < math.inf:
            raise OutOfRange(f"A part must weigh more than 0 g, not {part.mass_g:g} g; weigh it again.")
        _check_place(part.centre_mm)


def _check_place(place_mm: float) -> None:
    if not math.isfinite(place_mm):
        raise OutOfRange(f"A place along the tool must be a number of mm, not {place_mm}.")
