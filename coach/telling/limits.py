"""How limits of a length are written: never wider than they are.

Each is rounded inward, to the coarsest grain that leaves most of what they allow and keeps the size aimed at
between them. What is told of one limit in a sentence is what the table tells of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, isfinite
from typing import Final, NamedTuple

from coach.quantities.limits import Limits
from coach.quantities.units import convert
from coach.telling.writing import METRIC, MINUS, Shown, decimal, exact_of, inch_grain, mixed, nearest

#: Where a grain leaves less than so much of what is allowed, a finer one is told (our choice).
_ALLOWED_SHARE: Final = Fraction(3, 4)
#: Where rounding a limit that stands alone takes more of it than this, a finer grain is told (our choice).
_BOUND_SHARE: Final = Fraction(1, 20)
#: What sums of floats leave on a limit, mm: no step of a grain is lost to it (our choice).
_DUST_MM: Final = Fraction(1, 10**6)
#: What callipers show: thousandths of an inch, hundredths of a millimetre (common practice, no source).
_CALLIPER_PLACES: Final[dict[str, int]] = {"in": 3, "mm": 2}
#: So many decimals at most: finer than anything is measured here (our choice).
_MOST_PLACES: Final = 5
#: From which size on millimetres are told so: a tape, a rule, a calliper, as `write_length` tells a size.
_METRIC_GRAINS: Final = ((1000, Fraction(1)), (100, Fraction(1, 2)), (0, Fraction(1, 10)))


class ToldLimits(NamedTuple):
    """Limits as they are told, in the unit shown; a limit that is open is None."""

    low: Fraction | None
    middle: Fraction
    high: Fraction | None
    grain: Fraction  # all three are whole numbers of it
    places: int = 0  # of decimals, where a calliper shows them and no rule
    stated: bool = True  # False where only a bare size is told, whatever it is judged by

    def end(self, *, low: bool) -> Fraction | None:
        """One of the limits; of a bare size that itself, where it has none; None where it is open."""
        end = self.low if low else self.high
        return self.middle if end is None and not self.stated else end


@lru_cache(maxsize=4096)  # a drawing's limits are written anew after every entry
def write_limits(limits: Limits, shown: Shown = METRIC, *, fine: bool = False) -> str:
    """Return limits in mm as text: `28 ±1 mm`, `28 +0 −1 mm`, `27 to 29 mm`, `at least 40 mm`, `28 mm`.

    What is told is allowed: each limit is rounded inward, in fractions as fine as a rule shows, or as a
    calliper shows them where those would leave too little, or where fine ones are asked for.

    >>> write_limits(Limits(1.6, 1.3, 1.9, stated=True), Shown("in"))
    '0.063 ±0.011 in'
    """
    told = told_limits(limits, shown, fine=fine)
    middle = _middle(told, shown)
    if not limits.stated or (told.low is None and told.high is None):
        return f"{middle} {shown.system}"
    if told.low is None or told.high is None:
        low = told.high is None
        bound = f"{'at least' if low else 'at most'} {write_limit(limits, shown, low=low, fine=fine)}"
        return bound if (limits.low if low else limits.high) == limits.nominal else f"{middle}, {bound}"
    less, more = told.middle - told.low, told.high - told.middle
    if less != more and not _is_as_written(told, limits, shown):
        ends = (_number(end, told, shown) for end in (told.low, told.high))
        return f"{' to '.join(ends)} {shown.system}"
    below, above = (_number(off, told, shown) for off in (less, more))
    tolerance = f"±{above}" if less == more else f"+{above} {MINUS}{below}"
    return f"{middle} {tolerance} {shown.system}"


def write_limit(limits: Limits, shown: Shown = METRIC, *, low: bool, fine: bool = False) -> str:
    """Return one of the limits as it is told where both are: `1 3/8 in`; ValueError for one that is open.

    A fine one is told as a calliper shows it.

    >>> write_limit(Limits(28.0, 27.0, 29.0, stated=True), Shown("in"), low=True)
    '1 5/64 in'
    """
    told = told_limits(limits, shown, fine=fine)
    end = told.end(low=low)
    if end is None or not isfinite(limits.low if low else limits.high):
        raise ValueError("a limit that is open cannot be written")
    return f"{_number(end, told, shown)} {shown.system}"


def write_aim(limits: Limits, shown: Shown = METRIC) -> str:
    """Return what is aimed at, as it is told between its limits.

    >>> write_aim(Limits(9.0, 8.5, 9.5, stated=True), Shown("in"))
    '0.354 in'
    """
    return f"{_middle(told_limits(limits, shown), shown)} {shown.system}"


@lru_cache(maxsize=4096)
def told_limits(limits: Limits, shown: Shown = METRIC, *, fine: bool = False) -> ToldLimits:
    """Return limits in mm by what is told of them, in the unit shown; fine ones in inches by a calliper."""
    middle = convert(exact_of(limits.nominal), "mm", shown.system)
    low, high = (
        convert(exact_of(end), "mm", shown.system) if _is_told(limits, end) else None
        for end in (limits.low, limits.high)
    )
    size = max(abs(one) for one in (low, middle, high) if one is not None)
    for grain, places in _grains(size, shown):
        if fine and not places:
            continue
        told = _inward(low, middle, high, grain, shown)._replace(places=places, stated=limits.stated)
        if (told.low, told.high) != (low, high) and _is_even(limits, told, shown):
            even = _evened(told)
            told = even if places or _is_fine_enough(even, low, middle, high) else told
        is_bare = told.low is None and told.high is None
        if is_bare and shown.system == "in" and grain > inch_grain(middle, shown):
            continue
        if _is_fine_enough(told, low, middle, high):
            break
    return told


def _is_told(limits: Limits, end: float) -> bool:
    """Whether a limit is one: finite, and not a bare size that stands in for it."""
    return isfinite(end) and (limits.stated or limits.low < limits.high)


def _grains(size: Fraction, shown: Shown) -> Iterator[tuple[Fraction, int]]:
    """What a size can be told in, from the coarsest: as a rule shows it, as a calliper does, and finer."""
    if shown.system == "in":
        halves = shown.fraction
        while halves <= 64:
            yield Fraction(1, halves), 0
            halves *= 2
    else:
        yield from ((grain, 0) for most, grain in _METRIC_GRAINS if size >= most)
    for places in range(_CALLIPER_PLACES[shown.system], _MOST_PLACES + 1):
        yield Fraction(1, 10**places), places


def _inward(
    low: Fraction | None, middle: Fraction, high: Fraction | None, grain: Fraction, shown: Shown
) -> ToldLimits:
    """Each limit to the next whole grain inside it, and the middle to the nearest between them."""
    dust = convert(_DUST_MM, "mm", shown.system) / grain
    from_ = None if low is None else ceil(low / grain - dust) * grain
    to = None if high is None else floor(high / grain + dust) * grain
    near = nearest(middle, grain)
    near = near if from_ is None else max(near, from_)
    return ToldLimits(from_, near if to is None else min(near, to), to, grain)


def _evened(told: ToldLimits) -> ToldLimits:
    """As much allowed on either side, as it was meant."""
    if told.low is None or told.high is None:
        return told
    off = min(told.middle - told.low, told.high - told.middle)
    return told._replace(low=told.middle - off, high=told.middle + off)


def _is_fine_enough(told: ToldLimits, low: Fraction | None, middle: Fraction, high: Fraction | None) -> bool:
    """Whether the limits and the size aimed at keep their order, and most of what is allowed is left."""
    if low is not None and told.low is not None:
        if told.middle < told.low or (low < middle and told.low == told.middle):
            return False
        if high is None:
            return told.low - low <= _BOUND_SHARE * abs(low)
    if high is not None and told.high is not None:
        if told.high < told.middle or (middle < high and told.high == told.middle):
            return False
        if low is None:
            return high - told.high <= _BOUND_SHARE * abs(high)
    if low is None or high is None or told.low is None or told.high is None:
        return True
    return told.high - told.low >= _ALLOWED_SHARE * (high - low)


def _is_even(limits: Limits, told: ToldLimits, shown: Shown) -> bool:
    """Whether as much is allowed on either side of what is aimed at, to less than what it is told in."""
    if not limits.is_two_sided:
        return False
    low, middle, high = (exact_of(one) for one in (limits.low, limits.nominal, limits.high))
    return abs(convert(low + high - 2 * middle, "mm", shown.system)) < told.grain


def _is_as_written(told: ToldLimits, limits: Limits, shown: Shown) -> bool:
    """Whether an uneven size is told as it was written: one that was reckoned reads better as two limits."""
    exact = (convert(exact_of(one), "mm", shown.system) for one in (limits.low, limits.nominal, limits.high))
    return not _is_even(limits, told, shown) and tuple(exact) == (told.low, told.middle, told.high)


def _middle(told: ToldLimits, shown: Shown) -> str:
    """A size that a rule shows stays one, though a calliper is needed for what may be off it."""
    on_rule = shown.system == "in" and (told.middle * shown.fraction).denominator == 1
    return mixed(told.middle) if on_rule else _number(told.middle, told, shown)


def _number(size: Fraction, told: ToldLimits, shown: Shown) -> str:
    """A size as a whole number of the grain it is told in."""
    text = (
        f"{float(abs(size)):.{told.places}f}"
        if told.places
        else (mixed if shown.system == "in" else decimal)(abs(size))
    )
    return f"{MINUS}{text}" if size < 0 else text
