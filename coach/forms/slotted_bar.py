"""The slotted bar: a flat bar with a row of square, oblong or oval holes, for square nails or wedges."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from coach.forms import holes as shapes
from coach.forms.base import Loop
from coach.forms.row_of_holes import COUNTS, RowOfHoles


@dataclass(frozen=True, slots=True)
class SlottedBar(RowOfHoles):
    """A flat bar less n holes of one shape through its thickness: V = t · (w·L − n·A).

    A is the area of a hole as long as said along the bar and as wide as said across it.
    """

    SUMMARY = "a flat bar with a row of square, oblong or oval holes through its thickness, spaced evenly"
    VOLUME = "t · (w · L − n · A), n holes of area A"
    OPTIONS = MappingProxyType({"holes": COUNTS, "hole": ("rectangle", "slot", "oval")})
    FALLBACKS = MappingProxyType({"hole_width": "hole_length"})
    EVEN = ("thickness",)
    STRAIGHT = ("width", "length")

    width_mm: float
    thickness_mm: float
    length_mm: float
    hole_length_mm: float
    hole_width_mm: float
    holes: str
    hole: str

    @property
    def near_mm(self) -> tuple[float, float]:
        """The mouth of each hole, along the bar and across it, mm; the far one is as wide."""
        return self.hole_length_mm, self.hole_width_mm

    def hole_area_mm2(self) -> float:
        """That of its shape, mm²."""
        return shapes.area_mm2(self.hole, *self.near_mm)

    def around_hole_mm(self) -> float:
        """That of its shape, mm."""
        return shapes.perimeter_mm(self.hole, *self.near_mm)

    def half_open_mm(self, from_middle_mm: float) -> float:
        """That of its shape, mm."""
        return shapes.half_width_mm(self.hole, *self.near_mm, from_middle_mm)

    def hole_loop(self) -> Loop:
        """That of its shape, mm."""
        return shapes.loop_mm(self.hole, *self.near_mm)
