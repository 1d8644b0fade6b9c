"""A root of a monotone function of a size."""

from __future__ import annotations

from collections.abc import Callable

#: A size is looked for between start / _WIDEST and start × _WIDEST (our choice).
_WIDEST = 1e9

#: How often the bracket is drawn in along the chord before it is halved (our choice: most forms take five).
_CHORDS = 40

#: What both ends are brought to about the root that the chord has found, as a share of it (our choice).
_BESIDE = 4e-15


class NoRoot(ArithmeticError):
    """The function does not reach the value, or does not change."""


def monotone_root(function: Callable[[float], float], value: float, start: float) -> float:
    """The positive argument at which a rising or falling function reaches `value`.

    The bracket grows from `start` by factors of two. It is drawn in along its chord, the value at an end that
    stays taken at half (the Illinois method: M. Dowell and P. Jarratt, BIT 11, 1971), until both ends lie
    beside the root, and then halved until nothing is left between them. Raises NoRoot when the function is
    flat or the value is out of reach.
    """
    at_start = function(start)
    if at_start == value:
        return start
    rises = function(start * 2) - at_start
    if rises == 0.0:
        raise NoRoot
    factor = 2.0 if (value > at_start) == (rises > 0.0) else 0.5
    near, far = start, start * factor
    at_near, at_far = at_start, function(far)
    while (at_far >= value) == (at_start >= value):
        if not 1 / _WIDEST < far / start < _WIDEST:
            raise NoRoot
        near, far = far, far * factor
        at_near, at_far = at_far, function(far)
    (low, off_low), (high, off_high) = sorted(((near, at_near - value), (far, at_far - value)))
    stayed = 0  # how often in a row the upper end has stayed; below 0 the lower one
    for _ in range(_CHORDS):
        beside = _BESIDE * high
        if high - low <= 4 * beside:
            break
        at = high - off_high * (high - low) / (off_high - off_low)
        at = min(max(at, low + beside), high - beside)  # a step on from an end that is the root: it closes in
        off = function(at) - value
        if (off < 0.0) == (rises > 0.0):
            low, off_low, stayed = at, off, max(stayed, 0) + 1
            off_high *= 0.5 if stayed > 1 else 1.0
        else:
            high, off_high, stayed = at, off, min(stayed, 0) - 1
            off_low *= 0.5 if stayed < -1 else 1.0
    while high - low > 4e-16 * high:
        middle = (low + high) / 2
        if (function(middle) < value) == (rises > 0.0):
            low = middle
        else:
            high = middle
    return high
