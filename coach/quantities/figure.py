"""A figure: how much of what, and how far it is to be trusted; never how it is shown."""

from __future__ import annotations

from enum import Enum
from math import isfinite
from typing import NamedTuple

from coach.quantities.limits import Limits

#: What is told as give or take, in standard uncertainties: 95 % of a normal distribution lie above the lower
#: end, 90 % between the two (JCGM 100:2008, table G.1).
COVERAGE = 1.645


class Kind(Enum):
    """What a figure is a figure of, in a word or two, with the base unit that its value is in."""

    unit: str  # `1` for a plain number

    def __new__(cls, what: str, unit: str) -> Kind:
        """One kind; its value is what it is."""
        made = object.__new__(cls)
        made._value_ = what
        made.unit = unit
        return made

    LENGTH = ("length", "mm")
    GAP = ("gap", "mm")  # told as finely as a feeler shows it
    FINE = ("fine length", "mm")  # of skins, edges and shrinkage, finer than a rule shows
    AREA = ("area", "mm²")
    VOLUME = ("volume", "mm³")
    MASS = ("mass", "g")
    LINEAR_MASS = ("mass of a length", "g/m")
    DENSITY = ("density", "g/cm³")
    TEMPERATURE = ("temperature", "°C")
    TEMPERATURE_CHANGE = ("temperature change", "°C")
    TIME = ("time", "s")
    ANGLE = ("angle", "°")
    SHARE = ("share", "1")
    CONTENT = ("content by mass", "%")
    FACTOR = ("factor", "1")
    COUNT = ("count", "1")
    HARDNESS = ("hardness", "HRC")
    VICKERS = ("Vickers hardness", "HV")
    BRINELL = ("Brinell hardness", "HBW")
    STRESS = ("stress", "MPa")
    ENERGY = ("energy", "J")
    TEST = ("test", "1")  # 1 pass, 0.5 doubt, 0 fail


class Figure(NamedTuple):
    """A value in the base unit of its kind."""

    value: float
    kind: Kind = Kind.LENGTH
    doubt: float | None = None  # standard uncertainty in the same unit; None where there is none to tell

    @property
    def at_least(self) -> Figure:
        """What is there with 95 % confidence."""
        return self._replace(value=self.value - COVERAGE * (self.doubt or 0.0))

    def __str__(self) -> str:
        """The figure in its base unit, for a log or a test: people read what `coach.telling` writes."""
        unit = "" if self.kind.unit == "1" else f" {self.kind.unit}"
        return f"{self.value:.6g}{unit}"


class Span(NamedTuple):
    """From one value to another, both in the base unit of their kind."""

    low: float
    high: float
    kind: Kind = Kind.LENGTH

    def __str__(self) -> str:
        """See Figure."""
        return f"{self.low:.6g} to {Figure(self.high, self.kind)}"


class Wanted(NamedTuple):
    """What is wanted of a size, with its limits in the base unit of its kind."""

    limits: Limits
    kind: Kind = Kind.LENGTH

    def __str__(self) -> str:
        """See Figure."""
        limits = self.limits
        if not limits.stated or not (isfinite(limits.low) or isfinite(limits.high)):
            return str(Figure(limits.nominal, self.kind))
        if not isfinite(limits.high):
            return f"at least {Figure(limits.low, self.kind)}"
        if not isfinite(limits.low):
            return f"at most {Figure(limits.high, self.kind)}"
        return str(Span(limits.low, limits.high, self.kind))


class Limit(NamedTuple):
    """One of the two limits of what is wanted: it is told as it stands among them."""

    wanted: Wanted
    low: bool  # whether it is the least

    @property
    def figure(self) -> Figure:
        """How much it is, however it is told."""
        limits = self.wanted.limits
        return Figure(limits.low if self.low else limits.high, self.wanted.kind)

    def __str__(self) -> str:
        """See Figure."""
        return str(self.figure)


class Apart(NamedTuple):
    """How far a figure is from another, or from a limit, told beside it: by what is told of the two."""

    one: Figure
    other: Figure | Limit

    def __str__(self) -> str:
        """See Figure."""
        other = self.other.figure if isinstance(self.other, Limit) else self.other
        return str(Figure(abs(self.one.value - other.value), self.one.kind))


def aimed(size_mm: float, limits: Limits) -> Wanted:
    """A length in mm that is aimed at, as `{:aim}` tells it: between its limits, where it lies there."""
    if not limits.contains(size_mm):
        return Wanted(Limits(size_mm, size_mm, size_mm, stated=False))
    return Wanted(Limits(size_mm, limits.low, limits.high, limits.stated))


def mm(value: float, doubt: float | None = None) -> Figure:
    """A length in mm."""
    return Figure(value, Kind.LENGTH, doubt)


def grams(value: float, doubt: float | None = None) -> Figure:
    """A mass in grams."""
    return Figure(value, Kind.MASS, doubt)


def celsius(value: float, doubt: float | None = None) -> Figure:
    """A temperature in °C."""
    return Figure(value, Kind.TEMPERATURE, doubt)


def seconds(value: float, doubt: float | None = None) -> Figure:
    """A time in seconds."""
    return Figure(value, Kind.TIME, doubt)


def degrees(value: float, doubt: float | None = None) -> Figure:
    """An angle in degrees."""
    return Figure(value, Kind.ANGLE, doubt)


def share(value: float, doubt: float | None = None) -> Figure:
    """A share of 1."""
    return Figure(value, Kind.SHARE, doubt)


def as_change(figure: Figure) -> Figure:
    """A figure that is how far one is from another: of temperatures, one that has no zero of its own.

    >>> as_change(celsius(20.0)).kind.name, as_change(mm(2.0)).kind.name
    ('TEMPERATURE_CHANGE', 'LENGTH')
    """
    change = figure.kind is Kind.TEMPERATURE
    return figure._replace(kind=Kind.TEMPERATURE_CHANGE) if change else figure
