"""Two things timed in turn, so that what else the computer does falls on both alike."""

from __future__ import annotations

import statistics
from collections.abc import Callable
from dataclasses import dataclass
from time import perf_counter

Measurement = Callable[[], float]


@dataclass(frozen=True, slots=True)
class Comparison:
    """The medians of two measurements taken in turn, in seconds."""

    name: str
    median_s: float
    beside: str
    beside_median_s: float

    @property
    def ratio(self) -> float:
        """How many times as long as the thing it is held against."""
        return self.median_s / self.beside_median_s

    def line(self) -> str:
        """One line for the report: both times in milliseconds, then the ratio."""
        return (
            f"{self.name:<34}{self.median_s * 1000:9.1f} ms   "
            f"{self.beside:<22}{self.beside_median_s * 1000:9.1f} ms   ratio {self.ratio:.2f}"
        )


def compare(name: str, measured: Measurement, beside: str, floor: Measurement, rounds: int) -> Comparison:
    """The medians of so many rounds of each, after one round of each that is thrown away."""
    measured()
    floor()
    pairs = [(measured(), floor()) for _ in range(rounds)]
    return Comparison(
        name=name,
        median_s=statistics.median(first for first, _ in pairs),
        beside=beside,
        beside_median_s=statistics.median(second for _, second in pairs),
    )


def seconds_taken(work: Callable[[], object]) -> float:
    """How long one call takes, in seconds."""
    begun = perf_counter()
    work()
    return perf_counter() - begun
