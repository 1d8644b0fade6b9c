"""A safeguarded root of a monotone function of a size."""

from __future__ import annotations

from collections.abc import Callable

_WIDEST = 1e9  # a size is looked for between start / _WIDEST and start × _WIDEST
_STEPS = 200


class NoRoot(ArithmeticError):
    """The function does not reach the value, or does not change."""


def monotone_root(function: Callable[[float], float], value: float, start: float) -> float:
    """The positive argument at which a rising or falling function reaches `value`.

    The bracket grows from `start` by factors of two; inside it regula falsi with the Illinois change
    (Dowell & Jarratt, BIT 11 (1971) 168, from memory), with a halving step whenever that closes slowly.
    Raises NoRoot when the function is flat or the value is out of reach.
    """
    low, high = _bracket(function, value, start)
    at_low, at_high = function(low) - value, function(high) - value
    if at_low == 0.0:
        return low
    for _ in range(_STEPS):
        if at_high == 0.0 or abs(high - low) <= 4e-16 * abs(high):
            return high
        width = abs(high - low)
        middle = high - at_high * (high - low) / (at_high - at_low)
        if not min(low, high) < middle < max(low, high):
            middle = (low + high) / 2
        at_middle = function(middle) - value
        if at_middle * at_high < 0.0:
            low, at_low = high, at_high
        else:
            at_low /= 2
        high, at_high = middle, at_middle
        if at_high != 0.0 and abs(high - low) > width / 2:
            low, at_low, high, at_high = _halved(function, value, low, at_low, high, at_high)
    return high


def _halved(
    function: Callable[[float], float], value: float, low: float, at_low: float, high: float, at_high: float
) -> tuple[float, float, float, float]:
    middle = (low + high) / 2
    at_middle = function(middle) - value
    if at_middle * at_high < 0.0:
        return high, at_high, middle, at_middle
    return low, at_low, middle, at_middle


def _bracket(function: Callable[[float], float], value: float, start: float) -> tuple[float, float]:
    at_start = function(start)
    if at_start == value:
        return start, start
    rises = function(start * 2) - at_start
    if rises == 0.0:
        raise NoRoot
    grow = (value > at_start) == (rises > 0.0)
    factor, near, far = (2.0 if grow else 0.5), start, start
    while 1 / _WIDEST < far / start < _WIDEST:
        near, far = far, far * factor
        if (function(far) >= value) != (at_start >= value):
            return near, far
    raise NoRoot
