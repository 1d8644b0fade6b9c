"""What is believed of a few named quantities: one joint Gaussian, moved by steps, sharpened by readings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from math import sqrt
from operator import itemgetter
from typing import NamedTuple

from coach.operations.shape import NOTHING

#: The entries of a row that are not nought, each with its place.
_Row = Sequence[tuple[int, float]]


class Change(NamedTuple):
    """How a step makes one quantity out of the old ones: new = mean + slopes . (old - believed) + chance."""

    mean: float
    slopes: Mapping[str, float] = NOTHING  # by the old quantity's name: a row of F
    variance: float = 0.0  # of the step's own chance error: an entry on the diagonal of Q


class Belief:
    """The state of a Kalman filter: the mean x and the full covariance P of named quantities.

    A step is a prediction, a reading is an update with one scalar measurement, so nothing is ever inverted;
    some thirty quantities, so rows of plain floats are quick enough. Methods return a new belief.

    Source: R. E. Kalman, "A new approach to linear filtering and prediction problems", Journal of Basic
    Engineering 82, 1960; the letters are those of A. Gelb, Applied Optimal Estimation, 1974, 4.2 (from
    memory).
    """

    __slots__ = ("_covariance", "_index", "_mean")

    def __init__(
        self,
        index: Mapping[str, int] = NOTHING,
        mean: Sequence[float] = (),
        covariance: Sequence[Sequence[float]] = (),
    ) -> None:
        self._index = index  # each quantity's place in the mean and in the rows of the covariance
        self._mean = mean
        self._covariance = covariance

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
        return self._covariance[self._index[one]][self._index[other]]

    def variance(self, name: str) -> float:
        """The variance of a quantity."""
        return self.covariance(name, name)

    def doubt(self, name: str) -> float:
        """The standard uncertainty of a quantity."""
        return sqrt(max(0.0, self.variance(name)))

    def variance_of(self, slopes: Mapping[str, float]) -> float:
        """The variance H P Hᵀ of a linear combination; names it does not know count as certain."""
        row = self._known(slopes)
        return max(0.0, sum(a * b * self._covariance[i][j] for i, a in row for j, b in row))

    def covariances(self, rows: Sequence[Mapping[str, float]]) -> list[list[float]]:
        """The covariance H P Hᵀ of several linear combinations with one another."""
        known = [self._known(slopes) for slopes in rows]
        times = [self._times_covariance(row) for row in known]
        return [[_dot(row, column) for row in known] for column in times]

    def covariance_with(self, name: str, slopes: Mapping[str, float]) -> float:
        """The covariance of one quantity and a linear combination."""
        row = self._covariance[self._index[name]]
        return sum(slope * row[place] for place, slope in self._known(slopes))

    def predict(self, changes: Mapping[str, Change], dropped: Iterable[str] = ()) -> Belief:
        """The belief after a step: P becomes F P Fᵀ + Q, and x what the changes say.

        Every change is reckoned from the old quantities at once, so their order does not matter. A change of
        a name that is not there yet adds it. Chance errors of different changes are independent. A quantity
        that is neither changed nor dropped has a row of F with nothing but a 1 in it.
        """
        gone = set(dropped)
        kept = [name for name in self._index if name not in gone and name not in changes]
        made = {name: change for name, change in changes.items() if name not in gone}
        at = [self._index[name] for name in kept]
        f_rows = [self._known(change.slopes) for change in made.values()]
        f_p = [self._times_covariance(row) for row in f_rows]
        among = _picked(at, len(self._mean))
        upright = [*zip(*f_p, strict=True)] if f_p else [()] * len(self._mean)
        covariance = [[*among(self._covariance[i]), *upright[i]] for i in at]
        for place, (row, change) in enumerate(zip(f_p, made.values(), strict=True), start=len(kept)):
            covariance.append([*among(row), *[_dot(f_row, row) for f_row in f_rows]])
            covariance[place][place] += change.variance
        index = {name: place for place, name in enumerate((*kept, *made))}
        mean = [self._mean[i] for i in at] + [change.mean for change in made.values()]
        return Belief(index, mean, covariance)

    def update(self, slopes: Mapping[str, float], innovation: float, variance: float) -> Belief:
        """The belief after one reading z = H x + v: K = P Hᵀ / (H P Hᵀ + R), x + K y, P - K H P.

        Args:
            slopes: how the thing read hangs on the quantities: H, one row.
            innovation: what was read less what was expected: y.
            variance: of the reading's own independent error: R. It must be positive where nothing that the
                reading hangs on is in doubt.
        """
        row = self._known(slopes)
        p_h = self._times_covariance(row)
        innovation_variance = _dot(row, p_h) + variance
        if innovation_variance <= 0.0:
            raise ValueError("a reading needs some uncertainty of its own")
        gain = [p / innovation_variance for p in p_h]
        mean = [x + k * innovation for x, k in zip(self._mean, gain, strict=True)]
        covariance = [
            [p - k * h for p, h in zip(of, p_h, strict=True)] if k else of
            for of, k in zip(self._covariance, gain, strict=True)
        ]
        return Belief(self._index, mean, covariance)

    def moved_to(self, name: str, value: float) -> Belief:
        """The belief where one quantity is brought to a value: the others follow it, their doubts stay."""
        doubt = self.variance(name)
        row = self._covariance[self._index[name]]
        off = value - self.mean(name)
        mean = [x + p / doubt * off for x, p in zip(self._mean, row, strict=True)]
        return Belief(self._index, mean, self._covariance)

    def stretched(self, name: str, times: float, mean: float) -> Belief:
        """The belief where one quantity is so many times as far from its new mean as it was from the old."""
        at = self._index[name]
        covariance = [
            [p * times if column == at else p for column, p in enumerate(row)] for row in self._covariance
        ]
        covariance[at] = [p * times for p in covariance[at]]
        means = [mean if place == at else x for place, x in enumerate(self._mean)]
        return Belief(self._index, means, covariance)

    def exchanged(self, one: str, other: str, variance: float) -> Belief:
        """The belief where one quantity gave another so much by chance, or took it: their sum is as known."""
        i, j = self._index[one], self._index[other]
        covariance = [*self._covariance]
        for at, beside in ((i, j), (j, i)):
            row = [*covariance[at]]
            row[at] += variance
            row[beside] -= variance
            covariance[at] = row
        return Belief(self._index, self._mean, covariance)

    def widened(self, name: str, variance: float) -> Belief:
        """The belief where one quantity is in more doubt, and with it what hangs on it: their means stay.

        Where it is in as much doubt already nothing is changed. What else is known of the others stays: it
        becomes P + k c cᵀ, c being the covariances with it.
        """
        row = self._covariance[self._index[name]]
        known = row[self._index[name]]
        if variance <= known or known <= 0.0:
            return self
        k = (variance - known) / known**2
        covariance = [
            [p + k * own * other for p, other in zip(of, row, strict=True)] if own else of
            for of, own in zip(self._covariance, row, strict=True)
        ]
        return Belief(self._index, self._mean, covariance)

    def mixed(self, other: Belief, share: float) -> Belief:
        """This belief or another of the same quantities, that with this share: by the first two moments."""
        kept = 1.0 - share
        at = [other._index[name] for name in self._index]
        apart = [other._mean[j] - x for x, j in zip(self._mean, at, strict=True)]
        mean = [x + share * off for x, off in zip(self._mean, apart, strict=True)]
        covariance = [
            [
                kept * p + share * other._covariance[j][k] + kept * share * off * apart[column]
                for column, (p, k) in enumerate(zip(row, at, strict=True))
            ]
            for row, j, off in zip(self._covariance, at, apart, strict=True)
        ]
        return Belief(self._index, mean, covariance)

    def _known(self, slopes: Mapping[str, float]) -> _Row:
        """A row of slopes by place, without what is certain or does not count."""
        return [(self._index[name], slope) for name, slope in slopes.items() if slope and name in self._index]

    def _times_covariance(self, row: _Row) -> list[float]:
        """A row times P, which is also P times the row set upright, for P is symmetric."""
        if not row:
            return [0.0] * len(self._mean)
        (place, slope), *others = row
        found = [slope * p for p in self._covariance[place]]
        for place, slope in others:
            found = [have + slope * more for have, more in zip(found, self._covariance[place], strict=True)]
        return found


def _picked(at: Sequence[int], of: int) -> Callable[[Sequence[float]], Sequence[float]]:
    """What takes the entries at some places, in their order, out of a row of so many.

    Most steps leave most of the rows as they are, and a recipe of many zones has hundreds of quantities.
    """
    if len(at) == of and all(place == number for number, place in enumerate(at)):
        return lambda row: row
    return itemgetter(*at) if len(at) > 1 else lambda row: [row[place] for place in at]


def _dot(row: _Row, column: Sequence[float]) -> float:
    total = 0.0
    for place, slope in row:  # a sum over a generator takes twice as long, and rows are short
        total += slope * column[place]
    return total
