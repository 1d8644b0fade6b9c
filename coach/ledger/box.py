"""The chance that several sizes that hang together all lie between their limits."""

from __future__ import annotations

from collections.abc import Sequence
from math import erfc, exp, pi, sqrt

#: Surer than this, a size says nothing of the others; less likely than this, nothing else matters (our
#: choice).
_SURE = 1e-9
#: However well it is known, a size has this variance, mm², so that it can be divided by (our choice).
_LEAST_VARIANCE = 1e-12
#: However much the others say of it, this share of a size's variance is its own (our choice).
_OWN_SHARE = 1e-9

#: Of the normal distribution (by definition).
_ROOT_2 = sqrt(2.0)
_ROOT_2_PI = sqrt(2.0 * pi)


def all_between(
    means: Sequence[float], covariance: Sequence[Sequence[float]], limits: Sequence[tuple[float, float]]
) -> float:
    """The probability that correlated Gaussian quantities all lie between their limits.

    One after the other is taken to lie there, the least likely first; the others are moved to the mean and
    the covariance that they then have, and count as Gaussian again (N. R. Mendell and R. C. Elston,
    "Multifactorial qualitative traits", Biometrics 30, 1974, from memory, with both ends cut off; the moments
    of what is left between two limits are those of N. L. Johnson and S. Kotz, Continuous Univariate
    Distributions 1, 1970, 13.7, from memory). Exact where nothing hangs together; of 4 to 12 sizes within two
    points of what draws by chance say, mostly within half a point; too dark where several are nearly one and
    the same, by some six points for three.

    Args:
        means: of each.
        covariance: of all of them, a row for each.
        limits: of each, the low one before the high one; infinite where one is open.
    """
    singly = [
        _chance(*_reduced(mean, row[at], bounds))
        for at, (mean, row, bounds) in enumerate(zip(means, covariance, limits, strict=True))
    ]
    if min(singly, default=1.0) <= _SURE:
        return 0.0
    order = sorted((at for at, chance in enumerate(singly) if chance < 1.0 - _SURE), key=singly.__getitem__)
    at_mm = [means[at] for at in order]
    hang = [[covariance[i][j] for j in order] for i in order]
    found = 1.0
    for place, at in enumerate(order):
        row = hang[place]
        variance = max(row[place], _LEAST_VARIANCE)
        low, high = _reduced(at_mm[place], variance, limits[at])
        chance = _chance(low, high)
        if chance <= _SURE:
            return 0.0
        found *= chance
        at_low, at_high = _bell(low), _bell(high)
        shift = (at_low - at_high) / chance
        ends = (low * at_low if at_low else 0.0) - (high * at_high if at_high else 0.0)
        narrowed = shift**2 - ends / chance  # how much less its variance is, once it lies there, as a share
        doubt = sqrt(variance)
        for other in range(place + 1, len(order)):
            along = row[other] / variance
            if along:
                at_mm[other] += along * doubt * shift
                theirs, by = hang[other], along * narrowed
                least = _OWN_SHARE * theirs[other]
                for third in range(other, len(order)):  # what is below the diagonal is not looked at again
                    theirs[third] -= by * row[third]
                theirs[other] = max(theirs[other], least)
    return min([found, *singly])


def _reduced(mean: float, variance: float, limits: tuple[float, float]) -> tuple[float, float]:
    """Limits as so many standard uncertainties from the mean."""
    doubt = sqrt(max(variance, _LEAST_VARIANCE))
    return (limits[0] - mean) / doubt, (limits[1] - mean) / doubt


def _chance(low: float, high: float) -> float:
    """That a standard Gaussian quantity lies between two bounds, reckoned in the tail where that is small."""
    if low > 0.0:
        low, high = -high, -low
    return 0.5 * (erfc(-high / _ROOT_2) - erfc(-low / _ROOT_2))


def _bell(x: float) -> float:
    return exp(-0.5 * x * x) / _ROOT_2_PI
