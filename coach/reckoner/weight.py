"""What a bar weighs by its section and length, and how long a bar of some mass is."""

from __future__ import annotations

from typing import NamedTuple

from coach.metals.grade import Grade
from coach.quantities import Shown, write_length, write_mass
from coach.reckoner.asking import NotReckoned, TypedBar


class WeightView(NamedTuple):
    """A bar's mass; `length` and `mass` are None when only the mass of each metre was asked for."""

    section: str  # the bar as shown
    metal: str  # the grade
    density: float  # g/cm³
    mass_per_metre: float  # g
    mass_per_metre_text: str
    length: float | None  # how long it is; `null` when neither length nor mass was given
    length_text: str
    mass: float | None  # what it weighs; `null` like the length
    mass_text: str
    source: str  # of the density


def weight(
    bar: TypedBar, grade: Grade, shown: Shown, *, length_mm: float | None = None, mass_g: float | None = None
) -> WeightView:
    """The mass of a length of bar, or the length of a mass: m = ρ A L, cold.

    A in mm², L in mm, ρ the grade's density. The nominal masses of EN 10058, 10059 and 10060 follow with
    7.85 g/cm³ (from memory). Raises NotReckoned when both length and mass are given.

    >>> from coach.metals.grade import grade
    >>> weight(TypedBar("square", (25.0,)), grade("mild steel"), Shown(), length_mm=1000).mass_text
    '4.91 kg'
    """
    if length_mm is not None and mass_g is not None:
        raise NotReckoned("A length and a mass were both given: give one, and the other is reckoned.")
    density_g_mm3 = grade.density_kg_m3 * 1e-6
    per_mm_g = density_g_mm3 * bar.area_mm2
    if mass_g is not None:
        length_mm = mass_g / per_mm_g
    elif length_mm is not None:
        mass_g = length_mm * per_mm_g
    return WeightView(
        section=bar.text(shown),
        metal=grade.name,
        density=grade.density_kg_m3 / 1000.0,
        mass_per_metre=per_mm_g * 1000.0,
        mass_per_metre_text=_per_metre(per_mm_g * 1000.0, shown),
        length=length_mm,
        length_text="" if length_mm is None else write_length(length_mm, shown),
        mass=mass_g,
        mass_text="" if mass_g is None else write_mass(mass_g, shown),
        source=grade.sources.get("density_kg_m3", ""),
    )


def _per_metre(g_per_m: float, shown: Shown) -> str:
    if shown.system == "in":
        return f"{write_mass(g_per_m * 0.3048, shown)} per foot"
    return f"{g_per_m / 1000.0:.3f} kg/m"
