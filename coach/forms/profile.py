"""The profile: any head, taken off a drawing as a row of stations."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from types import MappingProxyType

from coach.forms.base import CrossSection, End, Form, FormError, rectangle
from coach.forms.taper import mean_area_mm2, side_faces_mm2
from coach.quantities import Words, as_words

Station = tuple[float, float, float]
"""A share of the length, of the greatest width and of the greatest thickness, each from 0 to 1."""


@dataclass(frozen=True, slots=True)
class Profile(Form):
    """Rectangles at stations along the length, on one axis, joined by prismatoids.

    V = k·L·W·T, with k = Σ Δs/6·(w₁t₁ + (w₁ + w₂)(t₁ + t₂) + w₂t₂) over the stations' shares: the prismatoid
    formula for each stretch (Kern & Bland, Solid Mensuration, 1938, from memory). Faces are trapezoids.
    """

    WRITTEN = "profile 30 x 6, then 74 x 2 at 50, then 20 x 2 at 165"
    ALSO_CALLED = MappingProxyType({"leaf": "", "outline": "", "stations": ""})
    SUMMARY = "a shape taken off a drawing, with a width and a thickness at several stations"
    VOLUME = "the sum of tapers from each station to the next"
    EVEN = ("length", "width", "thickness")

    length_mm: float
    width_mm: float
    thickness_mm: float
    stations: tuple[Station, ...]

    def landmarks(self) -> tuple[float, ...]:
        """Its stations."""
        return tuple(station[0] for station in self.stations)

    def faults(self) -> list[Words]:
        """Stations that do not run from 0 to 1 along the length, or shares that do not reach 1."""
        return [as_words(fault) for fault in _faults(self.stations)]

    def volume_mm3(self) -> float:
        """k·L·W·T, mm³."""
        return _fullness(self.stations) * self.length_mm * self.width_mm * self.thickness_mm

    def side_surface_mm2(self) -> float:
        """The trapezoids between the stations, mm²."""
        width_mm, thickness_mm = self.width_mm, self.thickness_mm
        total = 0.0
        for (at_1, width_1, thick_1), (at_2, width_2, thick_2) in pairwise(self.stations):
            total += side_faces_mm2(
                width_1 * width_mm,
                thick_1 * thickness_mm,
                width_2 * width_mm,
                thick_2 * thickness_mm,
                (at_2 - at_1) * self.length_mm,
            )
        return total

    def end_area_mm2(self, end: End) -> float:
        """The rectangle at that end, mm²; 0 where the profile runs out to an edge or a point."""
        _, width, thickness = self.stations[0 if end == "start" else -1]
        return width * thickness * self.width_mm * self.thickness_mm

    def section(self, at_mm: float) -> CrossSection:
        """The rectangle at that place, evenly between the stations on either side."""
        share = self._share_along(at_mm)
        for (at_1, width_1, thick_1), (at_2, width_2, thick_2) in pairwise(self.stations):
            if share <= at_2:
                part = (share - at_1) / (at_2 - at_1)
                width_mm = (width_1 + part * (width_2 - width_1)) * self.width_mm
                thickness_mm = (thick_1 + part * (thick_2 - thick_1)) * self.thickness_mm
                return CrossSection(width_mm * thickness_mm, rectangle(width_mm, thickness_mm))
        raise FormError("a profile's last station must be at 1 of its length")


def stations_from_sizes(
    rows: Sequence[tuple[float, float, float]],
) -> tuple[float, float, float, tuple[Station, ...]]:
    """(length, width, thickness, stations) from rows of (place along, width, thickness) in any one unit.

    The three sizes come back in the unit of the rows: multiply by the drawing's scale. FormError when there
    are fewer than two rows, when they do not run along, or when a width or thickness is nowhere above zero.
    """
    if len(rows) < 2:
        raise FormError("a profile needs at least two stations")
    start, finish = rows[0][0], rows[-1][0]
    length = finish - start
    width, thickness = max(row[1] for row in rows), max(row[2] for row in rows)
    if not all(before[0] < after[0] for before, after in pairwise(rows)):
        raise FormError("each station of a profile lies further along than the one before it")
    if not (width > 0.0 and thickness > 0.0):
        raise FormError("a profile needs a width and a thickness above zero at one station at least")
    shares = [((at - start) / length, w / width, t / thickness) for at, w, t in rows]
    return length, width, thickness, tuple(shares)


@lru_cache(maxsize=512)
def _fullness(stations: tuple[Station, ...]) -> float:
    """The share of the box L·W·T that the profile fills."""
    return sum(
        (at_2 - at_1) * mean_area_mm2(width_1, thick_1, width_2, thick_2)
        for (at_1, width_1, thick_1), (at_2, width_2, thick_2) in pairwise(stations)
    )


@lru_cache(maxsize=512)
def _faults(stations: tuple[Station, ...]) -> tuple[str, ...]:
    if len(stations) < 2:
        return ("a profile needs at least two stations",)
    found: list[str] = []
    if stations[0][0] != 0.0 or stations[-1][0] != 1.0:
        found.append("the first station of a profile is at 0 and the last at 1 of its length")
    if not all(before[0] < after[0] for before, after in pairwise(stations)):
        found.append("each station of a profile lies further along than the one before it")
    for name, shares in (("width", [s[1] for s in stations]), ("thickness", [s[2] for s in stations])):
        if not all(0.0 <= share <= 1.0 for share in shares) or max(shares) != 1.0:
            found.append(f"the shares of {name} at a profile's stations run up to 1 and never below 0")
        elif min(shares[1:-1], default=1.0) == 0.0:
            found.append(f"a profile comes to nothing in {name} only at its ends")
    return tuple(found)
