"""What is believed of a few named quantities: one joint Gaussian, moved by steps, sharpened by readings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import sqrt
from typing import NamedTuple

from coach.operations.shape import NOTHING


class Change(NamedTuple):
    """How a step makes one quantity out of the old ones: new = mean + slopes . (old - believed) + chance."""

    mean: float
    slopes: Mapping[str, float] = NOTHING  # by the old quantity's name
    variance: float = 0.0  # of the step's own chance error


class Belief:
    """Means and full covariance of named quantities.

    The names are kept in order and the covariance as rows of floats; some thirty quantities, so plain
    Python is quick enough and nothing is ever inverted. Methods return a new belief.
    """

    __slots__ = ("_cov", "_index", "_mean")

    def __init__(self) -> None:
        self._index: dict[str, int] = {}
        self._mean: list[float] = []
        self._cov: list[list[float]] = []

    def __contains__(self, name: str) -> bool:
        return name in self._index

    @property
    def names(self) -> tuple[str, ...]:
        """The quantities, in the order they were added."""
        return tuple(self._index)

    def mean(self, name: str) -> float:
        """The believed value of a quantity; raises KeyError when it is not known."""
        return self._mean[self._index[name]]

    def covariance(self, one: str, other: str) -> float:
        """The covariance of two quantities."""
        return self._cov[self._index[one]][self._index[other]]

    def variance(self, name: str) -> float:
        """The variance of a quantity."""
        return self.covariance(name, name)

    def doubt(self, name: str) -> float:
        """The standard uncertainty of a quantity."""
        return sqrt(max(0.0, self.variance(name)))

    def variance_of(self, slopes: Mapping[str, float]) -> float:
        """The variance of a linear combination of quantities; names it does not know count as certain."""
        known = [(self._index[name], slope) for name, slope in slopes.items() if name in self._index]
        return max(0.0, sum(a * b * self._cov[i][j] for i, a in known for j, b in known))

    def moved(self, changes: Mapping[str, Change], dropped: Iterable[str] = ()) -> Belief:
        """The belief after a step.

        Every change is reckoned from the old quantities at once, so their order does not matter. A change of
        a name that is not there yet adds it. Chance errors of different changes are independent.
        """
        gone = set(dropped)
        kept = [name for name in self._index if name not in gone and name not in changes]
        names = kept + [name for name in changes if name not in gone]
        old = self._cov
        kept_at = [self._index[name] for name in kept]
        rows: list[list[float]] = []  # covariance of each change with every old quantity
        size = len(self._mean)
        for change in changes.values():
            row = [0.0] * size
            for name, slope in change.slopes.items():
                if slope and name in self._index:
                    source = old[self._index[name]]
                    row = [have + slope * more for have, more in zip(row, source, strict=True)]
            rows.append(row)
        after = Belief()
        after._index = {name: at for at, name in enumerate(names)}
        after._mean = [self._mean[at] for at in kept_at]
        cov = [[old[i][j] for j in kept_at] for i in kept_at]
        changed = [
            (change, row)
            for (name, change), row in zip(changes.items(), rows, strict=True)
            if name not in gone
        ]
        for change, row in changed:
            after._mean.append(change.mean)
            cross = [row[j] for j in kept_at]
            for k, at in enumerate(cross):
                cov[k].append(at)
            cov.append(cross)
        first = len(kept)
        for a, (change, row) in enumerate(changed):
            for b in range(a + 1):
                slopes = changed[b][0].slopes
                both = sum(
                    slope * row[self._index[name]] for name, slope in slopes.items() if name in self._index
                )
                if a == b:
                    both += change.variance
                cov[first + a].append(both)
                if a != b:
                    cov[first + b].append(both)
        after._cov = cov
        return after

    def observed(self, slopes: Mapping[str, float], surprise: float, variance: float) -> Belief:
        """The belief after one reading: a scalar linear-Gaussian update with the full covariance.

        Args:
            slopes: how the thing read hangs on the quantities.
            surprise: what was read less what was expected.
            variance: of the reading's own independent error; it must be positive.
        """
        size = len(self._mean)
        pull = [0.0] * size
        known = [(self._index[name], slope) for name, slope in slopes.items() if name in self._index]
        for at, slope in known:
            pull = [have + slope * more for have, more in zip(pull, self._cov[at], strict=True)]
        spread = sum(slope * pull[at] for at, slope in known) + variance
        after = Belief()
        after._index = self._index
        if spread <= 0.0:
            raise ValueError("a reading needs some uncertainty of its own")
        after._mean = [have + p * surprise / spread for have, p in zip(self._mean, pull, strict=True)]
        after._cov = [
            [have - p * q / spread for have, q in zip(row, pull, strict=True)] if p else row
            for row, p in zip(self._cov, pull, strict=True)
        ]
        return after
