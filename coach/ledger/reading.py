"""A reading: turned cold, given its uncertainty, held against what was expected, taken into the belief."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot, sqrt
from typing import NamedTuple

from coach.fire.colours import COLOUR_DOUBT_C
from coach.ledger.belief import Belief, Change
from coach.ledger.running import coefficient, run_share, thickness_names
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import (
    SCALE,
    SPREAD,
    Estimate,
    Workpiece,
    size_name,
    volume_name,
    volume_slope,
)
from coach.metals.thermal import ELONGATION_DOUBT_SHARE, elongation, elongation_slope
from coach.operations.gauges import GAUGES, UNEVEN_MM, UNEVEN_SHARE, Gauge, bias_name
from coach.operations.measures import CENTRE, MARK, MEASURED
from coach.quantities import COVERAGE, Kind, Limits

#: A reading further from what was expected than this many standard uncertainties is questioned (judgement,
#: after the three standard deviations of W. A. Shewhart; from memory).
QUESTIONED_BEYOND = 3.0
#: The update of a size that is not linear is done again until it moves by less than this share of the
#: reading's own error, so often at most (our choice).
_SETTLED_SHARE = 0.1
_ROUNDS = 8
#: However the sizes disagree, none is believed to be less than this share of what it was held to be
#: (judgement).
_LEAST_SHARE = 0.1
#: A mark that takes less than this share of a zone's length leaves what the section says of its metal as it
#: is (our choice).
_MOVED_SHARE = 0.005

#: Two questioned readings that lie nearer than this many standard uncertainties bear each other out
#: (judgement).
_AGREE_WITHIN = 3.0
#: And where neither can be true, so near each other: a slip made twice, as a share of the size, or by a
#: calliper's last digit, mm (judgement).
_SAME_SLIP_SHARE, _SAME_SLIP_MM = 0.01, 0.1


class Reading(NamedTuple):
    """One size of a zone as the gauge said it."""

    zone: str
    dimension: str
    size_mm: float
    gauge: str
    hot_c: float | None = None  # the metal's temperature when it was read hot
    hot_doubt_c: float = COLOUR_DOUBT_C  # of that temperature, or of the one that was read
    chance_mm: float | None = None  # standard uncertainty of it; None where that is its gauge's
    then: Gauge | None = None  # its gauge as it was set when it was read; None for as it is set now

    @property
    def heat_doubt_c(self) -> float:
        """Standard uncertainty of a temperature that was read, °C."""
        return self.hot_doubt_c or MEASURED[Kind.TEMPERATURE].doubt or 0.0


class ColdReading(NamedTuple):
    """A reading as it would be on cold metal."""

    size_mm: float
    chance_mm: float  # standard uncertainty of this one reading
    bias_mm: float  # standard uncertainty of what its gauge gets wrong every time

    @property
    def doubt_mm(self) -> float:
        """Combined standard uncertainty."""
        return hypot(self.chance_mm, self.bias_mm)


class Surprise(NamedTuple):
    """A reading against what was expected of it."""

    expected: Estimate
    cold: ColdReading

    @property
    def standardised(self) -> float:
        """How many standard uncertainties the reading is from what was expected."""
        spread = sqrt(self.expected.doubt**2 + self.cold.doubt_mm**2)
        return (self.cold.size_mm - self.expected.value) / spread

    @property
    def questioned(self) -> bool:
        """Whether it should be taken again before it is believed."""
        return abs(self.standardised) > QUESTIONED_BEYOND


def cold_reading(reading: Reading) -> ColdReading:
    """Divide a hot size by 1 + elongation (EN 1993-1-2:2005 §3.4.1.1) and put its uncertainties together.

    Raises:
        OutOfRange: the temperature lies outside the published elongation's range.
        LedgerError: a length cannot be read so.
    """
    gauge = reading.then or GAUGES.get(reading.gauge)
    if gauge is None:
        raise LedgerError(f"A length cannot be read by {reading.gauge}: strike that reading out.")
    size = reading.size_mm
    if reading.chance_mm is not None:
        return ColdReading(size, reading.chance_mm, gauge.bias_mm)
    own = gauge.cold_mm
    thermal = 0.0
    if reading.hot_c is not None:
        own = gauge.hot_mm
        stretch = elongation(reading.hot_c)
        size /= 1.0 + stretch
        thermal = size * hypot(
            elongation_slope(reading.hot_c) * reading.hot_doubt_c, ELONGATION_DOUBT_SHARE * stretch
        )
    # What the hammer leaves uneven is no part of where a mark is on the cold bar.
    uneven = UNEVEN_MM + (0.0 if reading.dimension in (MARK, CENTRE) else UNEVEN_SHARE * size)
    chance = sqrt(own**2 + (gauge.share * size) ** 2 + uneven**2 + thermal**2)
    return ColdReading(size, chance, gauge.bias_mm)


def bear_each_other_out(one: ColdReading, other: ColdReading, *, odd: bool) -> bool:
    """Whether two questioned readings of one size are so near each other that it is believed.

    Where neither can be true (`odd`) they must be as near as a slip that is made twice.
    """
    near_mm = _AGREE_WITHIN * hypot(one.chance_mm, other.chance_mm)
    near_mm = min(near_mm, max(_SAME_SLIP_SHARE * other.size_mm, _SAME_SLIP_MM)) if odd else near_mm
    return abs(one.size_mm - other.size_mm) <= near_mm * (1.0 + 1e-9)


def settles_cold(reading: Reading, limits: Limits) -> bool:
    """Whether a gauge that a size was read hot with could say that it is good, once the metal is cold."""
    if reading.hot_c is None:
        return False
    guard_mm = COVERAGE * cold_reading(reading._replace(hot_c=None)).doubt_mm
    return limits.low + guard_mm <= limits.high - guard_mm


def with_bias(belief: Belief, gauge: str, cold: ColdReading) -> Belief:
    """The belief with the gauge's bias in it, added at its first reading."""
    bias = bias_name(gauge)
    return belief if bias in belief else belief.predict({bias: Change(0.0, variance=cold.bias_mm**2)})


def surprise_of(workpiece: Workpiece, reading: Reading, unformed_mm: float = 0.0) -> Surprise:
    """A reading against what was expected, without taking it in.

    `unformed_mm` is how doubtful that is besides, because its form is still being made.
    """
    expected = workpiece.size(reading.zone, reading.dimension)
    if unformed_mm:
        expected = expected._replace(doubt=hypot(expected.doubt, unformed_mm))
    return Surprise(expected, cold_reading(reading))


def taken_in(workpiece: Workpiece, reading: Reading, unformed_mm: float = 0.0) -> Workpiece:
    """The workpiece with one reading believed: a scalar update with its full covariance.

    It says the less of what the size hangs on, the more doubtful that is, `unformed_mm`, besides the gauge.

    A free dimension is not linear in what it hangs on, so its slopes are taken again where the belief comes
    to lie, until it settles (the iterated Kalman update, Gelb, Applied Optimal Estimation, 1974, 6.1; from
    memory). Only a reading far from what was expected takes more than two rounds. A mark is linear in the
    metal before it, and one is enough.
    """
    cold = cold_reading(reading)
    bias = bias_name(reading.gauge)
    belief = with_bias(workpiece.belief, reading.gauge, cold)
    now = workpiece._replace(belief=belief)
    for _ in range(1 if reading.dimension == MARK else _ROUNDS):
        try:
            estimate = now.size(reading.zone, reading.dimension)
        except LedgerError:
            break  # so far off that the sizes no longer go together: what follows says so
        slopes = {**estimate.slopes, bias: 1.0}
        # What the size would be where the belief stood, by the slopes at where it stands now.
        expected = estimate.value + belief.mean(bias)
        expected += sum(slope * (belief.mean(n) - now.belief.mean(n)) for n, slope in estimate.slopes.items())
        before = now.belief
        updated = belief.update(slopes, cold.size_mm - expected, cold.chance_mm**2 + unformed_mm**2)
        now = workpiece._replace(belief=_held_up(belief, updated, estimate.slopes))
        moved = sum(slope * (now.belief.mean(n) - before.mean(n)) for n, slope in estimate.slopes.items())
        if abs(moved) < _SETTLED_SHARE * cold.chance_mm or len(estimate.slopes) == 1:
            break
    if reading.dimension == MARK:
        return _marked_off(workpiece, now)
    return _run_with_thickness(workpiece, now, reading)


def _marked_off(before: Workpiece, now: Workpiece) -> Workpiece:
    """The lengths of a bar that marks were read on, none of which says anything of its section.

    A length of bar holds its metal by the section: V = A L. Where L has moved, so has what a doubt of the
    section makes of V; with the covariance of the old L the next mark would make the bar thinner or thicker
    for one that was made in the wrong place.
    """
    changes: dict[str, Change] = {}
    belief = now.belief
    for zone, state in now.zones.items():
        name = volume_name(zone)
        own = [one for one in state.shape.own_dimensions if one != "length"]
        # Those that run with another have a mean of their own: a round hole keeps one diameter.
        sections = (dimension for dimension in state.shape.dimensions if dimension != "length")
        for one in (size_name(zone, dimension) for dimension in sections):
            if one in belief and belief.mean(one) != before.belief.mean(one):
                belief = belief.stretched(one, 1.0, before.belief.mean(one))
        is_bar = state.parts == (zone,) and state.free == "length"
        is_bar = is_bar and all(size_name(zone, one) in belief for one in own)
        if not is_bar or belief.mean(name) == before.belief.mean(name):
            continue
        form = before.form(zone)
        times = belief.mean(name) / form.volume_mm3()
        if abs(times - 1.0) >= _MOVED_SHARE:
            slopes = {size_name(zone, one): (times - 1.0) * volume_slope(form, one) for one in own}
            changes[name] = Change(belief.mean(name), {name: 1.0, **slopes})
    return now._replace(belief=belief.predict(changes) if changes else belief)


def _run_with_thickness(before: Workpiece, now: Workpiece, reading: Reading) -> Workpiece:
    """The sizes that run with a thickness that was read, where it takes them.

    They go by a power of it, and half way it is far from where the step leaves it: their slopes there would
    bring a length too short, and the width that follows from it would be said to spread too little.
    """
    state = now.zones[reading.zone]
    names = thickness_names(state.shape)
    if state.runs is None or reading.dimension not in names:
        return now
    thicknesses = [size_name(reading.zone, name) for name in names]
    thin = sum(before.belief.mean(name) for name in thicknesses)
    now_thin = sum(now.belief.mean(name) for name in thicknesses)
    spread = coefficient(state.runs.published, before.belief.mean(SPREAD))
    changes = {}
    for name, _ in state.runs.sizes:
        own, share = size_name(reading.zone, name), run_share(name, spread)
        size, times = before.belief.mean(own), (thin / now_thin) ** share
        slope, now_slope = -share * size / thin, -share * size * times / now_thin
        beside = now.belief.mean(own) - size - slope * (now_thin - thin)  # what else the reading says of it
        slopes = {own: times} | dict.fromkeys(thicknesses, now_slope - times * slope)
        changes[own] = Change(times * (size + beside), slopes)
    return now._replace(belief=now.belief.predict(changes))


def with_measured(workpiece: Workpiece, reading: Reading) -> Workpiece:
    """The same; where it was of the size that its zone's metal settles, or of its mark, with that known."""
    state = workpiece.zones[reading.zone]
    if reading.dimension == MARK:
        marked = state._replace(marked=True)
        return workpiece._replace(zones={**workpiece.zones, reading.zone: marked})
    if reading.dimension != state.free:
        return workpiece
    measured = state._replace(measured=True, known=True)
    return workpiece._replace(zones={**workpiece.zones, reading.zone: measured})


def with_work_since(workpiece: Workpiece, zones: Iterable[str]) -> Workpiece:
    """The same once zones were worked: what their metal makes is no more what was read of it."""
    worked = {zone: workpiece.zones[zone]._replace(measured=False) for zone in zones}
    return workpiece._replace(zones={**workpiece.zones, **worked})


def _held_up(before: Belief, now: Belief, names: Iterable[str]) -> Belief:
    """No size can be nothing, though a Gaussian quantity may well be."""
    for name in names:
        least = _LEAST_SHARE * before.mean(name)
        if name not in (SCALE, SPREAD) and now.mean(name) < least:
            now = now.moved_to(name, least)
    return now
