"""How true a hand works to a size: its scatter, and what is learned of that."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import exp, hypot, inf, log, sqrt
from types import MappingProxyType
from typing import NamedTuple

from coach.quantities import Limits

#: Hand work to a size: its scatter where no limits are stated (common practice, no source).
HAND_SCATTER_SHARE = 0.02
HAND_SCATTER_MM = 0.3
#: Nineteen pieces in twenty land within the limits that a smith works to: half the width is two of these
#: (judgement).
_LIMIT_WIDTHS = 4.0
#: How well a length is cut (common practice, no source).
_CUT_SCATTER_MM = 1.0
#: Standard uncertainty of a hand's habit before anything was read (judgement).
HABIT_DOUBT = 0.15
#: Less than this share of the usual variance is never left to the scatter itself (our choice).
_LEAST_OWN_SHARE = 0.1
#: A hand's scatter is this of the usual, give or take a factor of e to the power of so much (judgement); by
#: so many values of it, from the first to the last (our choice).
SCATTER_DOUBT, _VALUES, _LEAST, _MOST = 0.3, 10, 0.4, 2.6
#: From one job to the next a hand's scatter, as a logarithm, and its habit change by about this (judgement).
_SCATTER_CHANGES, _HABIT_CHANGES = 0.1, 0.05
#: So many landings have another cause than the hand, and lie so many times as wide (judgement).
_ODD_SHARE, _ODD_TIMES = 0.05, 3.0


def scatter_mm(limits: Limits | None, size_mm: float) -> float:
    """Standard uncertainty of a size that was worked to a target and not measured, for the usual hand."""
    if limits is not None and limits.is_two_sided and limits.width > 0.0:
        return max(limits.width / _LIMIT_WIDTHS, 0.05)  # no hand is truer (judgement)
    return max(HAND_SCATTER_MM, HAND_SCATTER_SHARE * size_mm)


def cut_scatter_mm(limits: Limits | None, size_mm: float) -> float:
    """The same of a size that is reached by taking metal away."""
    return scatter_mm(limits, size_mm) if limits is not None and limits.stated else _CUT_SCATTER_MM


class Landed(NamedTuple):
    """Where a hand stops with a size that it was working to, as one more reading of that."""

    size_mm: float
    variance_mm2: float

    def beside(self, size_mm: float, doubt_mm: float) -> tuple[float, float]:
        """A size that was measured and its standard uncertainty, with this reading of it taken in."""
        share = doubt_mm**2 / (doubt_mm**2 + self.variance_mm2)
        return size_mm + share * (self.size_mm - size_mm), doubt_mm * sqrt(1.0 - share)


#: A hand of which no size is where it has landed.
NOTHING_LANDED: Mapping[str, Landed] = MappingProxyType({})


class KnownHand(NamedTuple):
    """A hand as one job hands it on to the next."""

    scatter: float  # how many times the usual one, in the middle
    scatter_doubt: float  # standard uncertainty of its natural logarithm
    habit: float
    habit_doubt: float

    @property
    def hand(self) -> Hand:
        """A hand of which this is known and nothing was read yet: its scatter is log-normal."""
        likely = [exp(-0.5 * (log(value / self.scatter) / self.scatter_doubt) ** 2) for value in _values()]
        whole = sum(likely)
        weights = tuple(one / whole for one in likely) if whole > 0.0 else ()
        return Hand(weights, self.habit, self.habit_doubt)


def can_be_handed_on(known: KnownHand) -> bool:
    """Whether any job can come to know that of a hand: it weighs a few values, and is never so sure."""
    values = _values()
    return (
        values[0] * (1.0 - _HAIR) <= known.scatter <= values[-1] * (1.0 + _HAIR)
        and _SCATTER_CHANGES * (1.0 - _HAIR) <= known.scatter_doubt <= SCATTER_DOUBT * (1.0 + _HAIR)
        and _HABIT_CHANGES * (1.0 - _HAIR) <= known.habit_doubt <= HABIT_DOUBT * (1.0 + _HAIR)
    )


#: Rounding, as a share (our choice).
_HAIR = 1e-9


class Hand(NamedTuple):
    """What is known of how true a hand works.

    Its scatter is a factor on the usual one. It is no quantity that a Gaussian belief could hold, for what is
    read hangs on its square; so a few values of it are weighed. Its habit is where between the target and the
    limit that a size comes from it stops: 0 on the middle, 1 as soon as the limit is reached.
    """

    weights: tuple[float, ...] = ()  # of each value, coming to 1 together; empty while nothing was read
    habit: float = 0.0
    habit_doubt: float = HABIT_DOUBT  # standard uncertainty of that
    landed: Mapping[str, Landed] = NOTHING_LANDED  # by the belief's name, until a step works the size again
    sizes: float = 0.0  # so many have told of it, each as surely as it was the hand that brought it there

    @property
    def known(self) -> KnownHand:
        """What the next job begins with: it may be another day, and is never known less than at first."""
        weighed = list(zip(self.weights or _prior(), _values(), strict=True))
        middle = sum(weight * log(value) for weight, value in weighed)
        variance = sum(weight * (log(value) - middle) ** 2 for weight, value in weighed)
        return KnownHand(
            exp(middle),
            min(hypot(sqrt(variance), _SCATTER_CHANGES), SCATTER_DOUBT),
            self.habit,
            min(hypot(self.habit_doubt, _HABIT_CHANGES), HABIT_DOUBT),
        )

    @property
    def habit_variance(self) -> float:
        """The variance of the habit."""
        return self.habit_doubt**2

    @property
    def mean_square(self) -> float:
        """The mean square of the factor: by so much the variance of what it works is more than the usual."""
        if not self.weights:
            return 1.0
        return sum(weight * value**2 for weight, value in zip(self.weights, _values(), strict=True))

    @property
    def factor(self) -> float:
        """The root of that: so many times the usual scatter."""
        return sqrt(self.mean_square)

    def scatter_mm2(self, usual_mm: float, reach_mm: float) -> float:
        """The variance of where it lands about where it stops, what is not known of its habit included.

        Nineteen in twenty of the usual hand lie within the limits, whatever its habit is.
        """
        own = self.mean_square * usual_mm**2 - (HABIT_DOUBT * reach_mm) ** 2
        return max(own, _LEAST_OWN_SHARE * usual_mm**2) + self.habit_variance * reach_mm**2

    def having_landed(
        self, off_mm: float, usual_mm: float, reach_mm: float, known_mm2: float, share: float = 1.0
    ) -> Hand:
        """It, once a size came out so far from where this hand stops.

        Args:
            off_mm: how far.
            usual_mm: the usual scatter there.
            reach_mm: how far off the target a habit of 1 stops, below 0 on the small side.
            known_mm2: the variance of what was read.
            share: how surely it is the hand that has brought the size there.
        """
        beside_mm2 = known_mm2 + (self.habit_variance - HABIT_DOUBT**2) * reach_mm**2
        no_more = _FURTHEST * sqrt(usual_mm**2 + known_mm2)
        counted_mm = min(abs(off_mm), no_more)
        likely = []
        for weight, value in zip(self.weights or _prior(), _values(), strict=True):
            spread = sqrt(max((value * usual_mm) ** 2 + beside_mm2, (_LEAST_SHARE * usual_mm) ** 2))
            by_hand = (1.0 - _ODD_SHARE) * _bell(counted_mm, spread)
            found = by_hand + _ODD_SHARE * _bell(counted_mm, _ODD_TIMES * spread)
            likely.append(weight * found**share)
        whole = sum(likely)
        weights = tuple(one / whole for one in likely) if whole > 0.0 else self.weights
        total = (self.scatter_mm2(usual_mm, reach_mm) + known_mm2) / share if share > 0.0 else inf
        gain = self.habit_variance * reach_mm / total
        habit = self.habit + gain * max(-no_more, min(off_mm, no_more))
        doubt = self.habit_doubt * sqrt(1.0 - gain * reach_mm)
        return self._replace(weights=weights, habit=habit, habit_doubt=doubt, sizes=self.sizes + share)


#: What is further off than so many standard uncertainties of the usual hand says no more than that
#: (judgement).
_FURTHEST = 4.0
#: A size lands never truer than this share of the usual scatter, its reading included (our choice).
_LEAST_SHARE = 0.1
#: A hand of which nothing was read yet.
USUAL_HAND = Hand()


def _bell(off: float, spread: float) -> float:
    """The density of a Gaussian quantity, but for a factor that is the same everywhere."""
    return exp(-0.5 * (off / spread) ** 2) / spread


@cache
def _grid() -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The values and how likely each is at first, their mean square being 1."""
    ratio = (_MOST / _LEAST) ** (1.0 / (_VALUES - 1))
    values = [_LEAST * ratio**at for at in range(_VALUES)]
    middle = -(SCATTER_DOUBT**2)  # of a log-normal quantity whose mean square is 1
    weights = [exp(-0.5 * ((log(value) - middle) / SCATTER_DOUBT) ** 2) for value in values]
    whole = sum(weights)
    weights = [weight / whole for weight in weights]
    root = sqrt(sum(weight * value**2 for weight, value in zip(weights, values, strict=True)))
    return tuple(value / root for value in values), tuple(weights)


def _values() -> tuple[float, ...]:
    return _grid()[0]


def _prior() -> tuple[float, ...]:
    return _grid()[1]
