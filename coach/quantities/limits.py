"""A size with the limits it must keep."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """A size and the limits it must keep, in whatever unit its reader gives; low ≤ nominal ≤ high."""

    nominal: float
    low: float  # -inf when there is no low limit
    high: float  # inf when there is no high limit
    stated: bool  # False when only a bare size was given; then low = high = nominal

    def __post_init__(self) -> None:
        if not (math.isfinite(self.nominal) and self.low <= self.nominal <= self.high):
            raise ValueError(f"limits out of order: {self.low} ≤ {self.nominal} ≤ {self.high} does not hold")

    @property
    def width(self) -> float:
        """How far apart the limits are; inf when one of them is open."""
        return self.high - self.low

    @property
    def is_two_sided(self) -> bool:
        """Whether there is both a low and a high limit."""
        return math.isfinite(self.low) and math.isfinite(self.high)

    def moved(self, by: float) -> Limits:
        """The same limits about a size that is bigger by this; below 0 smaller."""
        return Limits(self.nominal + by, self.low + by, self.high + by, self.stated)

    def contains(self, value: float) -> bool:
        """Whether `value` keeps both limits, the limits themselves included."""
        return self.low <= value <= self.high
