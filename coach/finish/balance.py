"""Where a head, or a whole tool, balances."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, NamedTuple

from coach.finish.edge import FinishError, check_size, finite
from coach.metals.thermal import DENSITY_KG_M3

#: One mm³ of one kg/m³ weighs this many g.
_G_PER_MM3: Final = 1e-6


class Part(NamedTuple):
    """One piece of a tool as it hangs on the line along which it is balanced."""

    mass_g: float
    centre_mm: float  # of its mass, from an origin of one's own choosing; below 0 on its other side


class Prism(NamedTuple):
    """The volume of a solid and where along its length its middle lies, from its start."""

    volume_mm3: float
    centre_mm: float


class Sides(NamedTuple):
    """The mass on either side of a place, in g, and what it would turn by there, in g mm."""

    before_g: float
    after_g: float
    turns_g_mm: float  # above 0: the side after the place sinks


def mass_g(parts: Sequence[Part]) -> float:
    """The mass of all parts, in g; raises FinishError for no part, or one without a mass.

    >>> mass_g([Part(900, 0), Part(300, 40)])
    1200.0
    """
    _check(parts)
    return finite(math.fsum(part.mass_g for part in parts), "mass")


def moment_g_mm(parts: Sequence[Part], about_mm: float = 0.0) -> float:
    """What the parts turn by about a place, in g mm: Σ m (x - about), above 0 when the far side sinks.

    >>> moment_g_mm([Part(900, -10), Part(300, 40)])
    3000.0
    """
    _check(parts)
    _check_place(about_mm)
    return finite(math.fsum(part.mass_g * (part.centre_mm - about_mm) for part in parts), "moment")


def balance_mm(parts: Sequence[Part]) -> float:
    """Where the parts balance together, in mm from the same origin: Σ m x / Σ m.

    Raises FinishError for no part, or one without a mass. Elementary statics.

    >>> balance_mm([Part(900, -10), Part(300, 40)])
    2.5
    """
    return moment_g_mm(parts) / mass_g(parts)


def sides_of(parts: Sequence[Part], eye_mm: float) -> Sides:
    """What hangs on either side of the middle of the eye, at `eye_mm`.

    Each part counts whole on the side where its middle lies, and half on each when it lies on the place
    itself; so a part that reaches across is told as two, cut at the eye. Raises FinishError as `mass_g`.

    >>> sides_of([Part(520, -30), Part(480, 35)], 0)
    Sides(before_g=520.0, after_g=480.0, turns_g_mm=1200.0)
    """
    turns = moment_g_mm(parts, eye_mm)
    on_g = sum(part.mass_g for part in parts if part.centre_mm == eye_mm) / 2.0
    return Sides(
        math.fsum(part.mass_g for part in parts if part.centre_mm < eye_mm) + on_g,
        math.fsum(part.mass_g for part in parts if part.centre_mm > eye_mm) + on_g,
        turns,
    )


def prismatoid(start_mm2: float, middle_mm2: float, end_mm2: float, length_mm: float) -> Prism:
    """The volume and the middle of a solid from its cross-sections at start, middle and end.

    V = L (A₀ + 4 A_m + A₁)/6 and ∫ x A dx = L² (2 A_m + A₁)/6, Simpson's rule, exact for every section
    that changes as a quadratic along the length: prisms, tapers, cones, wedges. Areas in mm², 0 or more
    and not all 0; raises FinishError elsewhere.
    Elementary geometry.

    A cone has its middle at three quarters of its length from its tip:

    >>> round(prismatoid(0, 25, 100, 40).centre_mm, 6)
    30.0
    """
    check_size(length_mm, "length")
    for area_mm2, name in ((start_mm2, "start"), (middle_mm2, "middle"), (end_mm2, "end")):
        if not 0.0 <= area_mm2 < math.inf:
            raise FinishError(f"The section at the {name} must be 0 mm² or more, not {area_mm2:g} mm².")
    sixth_mm2 = (start_mm2 + 4.0 * middle_mm2 + end_mm2) / 6.0
    volume_mm3 = finite(sixth_mm2 * length_mm, "volume")
    if not volume_mm3 > 0.0:
        raise FinishError("A solid without any section has no middle; give one section above 0 mm².")
    return Prism(volume_mm3, (2.0 * middle_mm2 + end_mm2) / 6.0 / sixth_mm2 * length_mm)


def part_of(
    prism: Prism, start_at_mm: float, density_kg_m3: float = DENSITY_KG_M3, *, runs_back: bool = False
) -> Part:
    """The part that a solid is when it starts at a place and runs on from there, or back from it.

    Its mass is its volume times its density, in kg/m³. Raises FinishError for a density not above 0.

    >>> part_of(Prism(100_000.0, 20.0), -50.0)
    Part(mass_g=785.0, centre_mm=-30.0)
    """
    _check_place(start_at_mm)
    if not 0.0 < density_kg_m3 < math.inf:
        raise FinishError(f"A density must be above 0 kg/m³, not {density_kg_m3:g}; steel has 7850 kg/m³.")
    centre_mm = start_at_mm - prism.centre_mm if runs_back else start_at_mm + prism.centre_mm
    return Part(finite(prism.volume_mm3 * density_kg_m3 * _G_PER_MM3, "mass"), centre_mm)


def _check(parts: Sequence[Part]) -> None:
    if not parts:
        raise FinishError("Nothing balances without a part; give the mass and the middle of at least one.")
    for part in parts:
        if not 0.0 < part.mass_g < math.inf:
            raise FinishError(f"A part must weigh more than 0 g, not {part.mass_g:g} g; weigh it again.")
        _check_place(part.centre_mm)


def _check_place(place_mm: float) -> None:
    if not math.isfinite(place_mm):
        raise FinishError(f"A place along the tool must be a number of mm, not {place_mm}.")
