"""A root of a monotone function of a size."""

from __future__ import annotations

from collections.abc import Callable

#: A size is looked for between start / _WIDEST and start × _WIDEST (our choice).
_WIDEST = 1e9


class NoRoot(ArithmeticError):
    """The function does not reach the value, or does not change."""


def monotone_root(function: Callable[[float], float], value: float, start: float) -> float:
    """The positive argument at which a rising or falling function reaches `value`.

    The bracket grows from `start` by factors of two and is then halved, some fifty times, until nothing is
    left between its ends. Raises NoRoot when the function is flat or the value is out of reach.
    """
    at_start = function(start)
    if at_start == value:
        return start
    rises = function(start * 2) - at_start
    if rises == 0.0:
        raise NoRoot
    factor = 2.0 if (value > at_start) == (rises > 0.0) else 0.5
    near, far = start, start * factor
    while (function(far) >= value) == (at_start >= value):
        if not 1 / _WIDEST < far / start < _WIDEST:
            raise NoRoot
        near, far = far, far * factor
    low, high = sorted((near, far))
    while high - low > 4e-16 * high:
        middle = (low + high) / 2
        if (function(middle) < value) == (rises > 0.0):
            low = middle
        else:
            high = middle
    return high
