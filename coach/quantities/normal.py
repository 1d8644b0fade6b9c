"""The standard normal distribution: how many standard deviations lie below a share of it.

Python's own `statistics` tells the same, and brings random and hashlib along, which a short command waits
for.
"""

from __future__ import annotations

from math import erfc, exp, log, pi, sqrt

#: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.23, within 4.5e-4 (from memory).
_OVER = (2.515517, 0.802853, 0.010328)
_UNDER = (1.0, 1.432788, 0.189269, 0.001308)
#: Halley's steps from there: each leaves the cube of the error, so that two leave none (computed).
_STEPS = 2


def below(z: float) -> float:
    """The share of the standard normal distribution below z."""
    return 0.5 * erfc(-z / sqrt(2.0))


def density(z: float) -> float:
    """The density of the standard normal distribution at z."""
    return exp(-0.5 * z * z) / sqrt(2.0 * pi)


def quantile(share: float) -> float:
    """The z with this share of the standard normal distribution below it; above 0 and below 1.

    >>> round(quantile(0.975), 6)
    1.959964
    """
    if share == 0.5:
        return 0.0  # and not the last digit beside it
    tail = min(share, 1.0 - share)
    t = sqrt(-2.0 * log(tail))
    over = sum(factor * t**power for power, factor in enumerate(_OVER))
    under = sum(factor * t**power for power, factor in enumerate(_UNDER))
    z = over / under - t
    for _ in range(_STEPS):
        off = (below(z) - tail) / density(z)
        z -= off / (1.0 + 0.5 * z * off)
    return z if share < 0.5 else -z
