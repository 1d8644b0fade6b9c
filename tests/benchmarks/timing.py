"""Two things measured in turn, so that what else the computer does falls on both alike."""

from __future__ import annotations

import statistics
from collections.abc import Callable
from time import process_time
from typing import NamedTuple

Measurement = Callable[[], float]


class Comparison(NamedTuple):
    """Two measurements taken in turn, in seconds of processor time."""

    name: str
    beside: str
    pairs: tuple[tuple[float, float], ...]

    @property
    def median_s(self) -> float:
        """The median of what is measured."""
        return statistics.median(first for first, _ in self.pairs)

    @property
    def beside_median_s(self) -> float:
        """The median of what it is held against."""
        return statistics.median(second for _, second in self.pairs)

    @property
    def ratio(self) -> float:
        """How many times as much as the thing it is held against: the median of the rounds' ratios."""
        return statistics.median(first / second for first, second in self.pairs)

    def line(self) -> str:
        """One line for the report: both times in milliseconds, then the ratio."""
        return (
            f"{self.name:<38}{self.median_s * 1000:9.1f} ms   "
            f"{self.beside:<22}{self.beside_median_s * 1000:8.1f} ms   ratio {self.ratio:.2f}"
        )


def compare(name: str, measured: Measurement, beside: str, floor: Measurement, rounds: int) -> Comparison:
    """So many rounds of each in turn, after one round of each that is thrown away."""
    measured()
    floor()
    return Comparison(name, beside, tuple((measured(), floor()) for _ in range(rounds)))


def seconds_taken(work: Callable[[], object]) -> float:
    """The processor time that one call takes, in seconds."""
    begun = process_time()
    work()
    return process_time() - begun
