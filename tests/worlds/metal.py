"""Bars and zones as numbers: volumes and surfaces by hand, without any of the coach's forms."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi


@dataclass(frozen=True)
class Section:
    """A cross section, mm: a rectangle, or a circle where `thick` is None."""

    wide: float
    thick: float | None = None

    @property
    def area(self) -> float:
        """mm²."""
        return pi / 4.0 * self.wide**2 if self.thick is None else self.wide * self.thick

    @property
    def around(self) -> float:
        """mm."""
        return pi * self.wide if self.thick is None else 2.0 * (self.wide + self.thick)

    def between(self, other: Section) -> Section:
        """Half way to another one."""
        thick = None if self.thick is None or other.thick is None else (self.thick + other.thick) / 2.0
        return Section((self.wide + other.wide) / 2.0, thick)

    def thinner(self, by: float) -> Section:
        """With so much off between every two faces, mm."""
        return Section(self.wide - by, None if self.thick is None else self.thick - by)


@dataclass(frozen=True)
class Zone:
    """A stretch of the piece: straight from one section to another, `full` times what its sizes make."""

    near: Section
    far: Section
    long: float  # mm
    full: float = 1.0

    @property
    def per_mm(self) -> float:
        """mm³ in a millimetre of its length, by Simpson's rule, which is exact for straight sides."""
        middle = self.near.between(self.far).area
        return self.full * (self.near.area + 4.0 * middle + self.far.area) / 6.0

    @property
    def volume(self) -> float:
        """mm³."""
        return self.long * self.per_mm

    @property
    def surface(self) -> float:
        """mm², without its ends; the slope of its sides left out."""
        return self.long * (self.near.around + self.far.around) / 2.0

    def holding(self, volume: float) -> Zone:
        """The same sections, as long as that metal makes them."""
        return replace(self, long=volume / self.per_mm)

    def scaled(self, depth: float) -> Zone:
        """With so much scale off every face, mm: thinner, and as long as before."""
        return replace(self, near=self.near.thinner(2.0 * depth), far=self.far.thinner(2.0 * depth))

    def size(self, name: str) -> float:
        """A size by the name that the coach has for it."""
        return {
            "width": self.near.wide,
            "side": self.near.wide,
            "diameter": self.near.wide,
            "thickness": self.near.thick or 0.0,
            "end_width": self.far.wide,
            "end_side": self.far.wide,
            "end_diameter": self.far.wide,
            "end_thickness": self.far.thick or 0.0,
            "length": self.long,
        }[name]
