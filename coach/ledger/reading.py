"""A reading: turned cold, given its uncertainty, held against what was expected, taken into the belief."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot, sqrt
from typing import NamedTuple

from coach.fire.colours import COLOUR_DOUBT_C
from coach.ledger.belief import Belief, Change
from coach.ledger.nominal import Stage
from coach.ledger.working import LedgerError, reshapes
from coach.ledger.workpiece import SCALE, SPREAD, Estimate, Workpiece
from coach.metals.thermal import ELONGATION_DOUBT_SHARE, elongation, elongation_slope
from coach.operations import operation
from coach.operations.gauges import GAUGES, UNEVEN_MM, UNEVEN_SHARE
from coach.operations.measures import MARK

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


class Reading(NamedTuple):
    """One size of a zone as the gauge said it."""

    zone: str
    dimension: str
    size_mm: float
    gauge: str
    hot_c: float | None = None  # the metal's temperature when it was read hot
    hot_doubt_c: float = COLOUR_DOUBT_C  # of that temperature, or of the one that was read


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
    gauge = GAUGES.get(reading.gauge)
    if gauge is None:
        raise LedgerError(f"A length cannot be read by {reading.gauge}: strike that reading out.")
    size = reading.size_mm
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
    uneven = UNEVEN_MM + (0.0 if reading.dimension == MARK else UNEVEN_SHARE * size)
    chance = sqrt(own**2 + (gauge.share * size) ** 2 + uneven**2 + thermal**2)
    return ColdReading(size, chance, gauge.bias_mm)


def bias_name(gauge: str) -> str:
    """The belief's name for what a gauge gets wrong every time."""
    return f"{gauge} bias"


def with_bias(belief: Belief, gauge: str, cold: ColdReading) -> Belief:
    """The belief with the gauge's bias in it, added at its first reading."""
    bias = bias_name(gauge)
    return belief if bias in belief else belief.predict({bias: Change(0.0, variance=cold.bias_mm**2)})


def surprise_of(workpiece: Workpiece, reading: Reading) -> Surprise:
    """A reading against what was expected, without taking it in."""
    return Surprise(workpiece.size(reading.zone, reading.dimension), cold_reading(reading))


def taken_in(workpiece: Workpiece, reading: Reading) -> Workpiece:
    """The workpiece with one reading believed: a scalar update with its full covariance.

    A free dimension is not linear in what it hangs on, so its slopes are taken again where the belief comes
    to lie, until it settles (the iterated Kalman update, Gelb, Applied Optimal Estimation, 1974, 6.1; from
    memory). Only a reading far from what was expected takes more than two rounds.
    """
    cold = cold_reading(reading)
    bias = bias_name(reading.gauge)
    belief = with_bias(workpiece.belief, reading.gauge, cold)
    now = Workpiece(workpiece.zones, belief)
    for _ in range(_ROUNDS):
        try:
            estimate = now.size(reading.zone, reading.dimension)
        except LedgerError:
            break  # so far off that the sizes no longer go together: what follows says so
        slopes = {**estimate.slopes, bias: 1.0}
        # What the size would be where the belief stood, by the slopes at where it stands now.
        expected = estimate.value + belief.mean(bias)
        expected += sum(slope * (belief.mean(n) - now.belief.mean(n)) for n, slope in estimate.slopes.items())
        before = now.belief
        updated = belief.update(slopes, cold.size_mm - expected, cold.chance_mm**2)
        now = Workpiece(workpiece.zones, _held_up(belief, updated, estimate.slopes))
        moved = sum(slope * (now.belief.mean(n) - before.mean(n)) for n, slope in estimate.slopes.items())
        if abs(moved) < _SETTLED_SHARE * cold.chance_mm or len(estimate.slopes) == 1:
            break
    return now


def with_measured(workpiece: Workpiece, reading: Reading) -> Workpiece:
    """The same; where the reading was of the size that its zone's metal settles, with that known."""
    state = workpiece.zones[reading.zone]
    if reading.dimension != state.free:
        return workpiece
    measured = state._replace(measured=True, known=True)
    return Workpiece({**workpiece.zones, reading.zone: measured}, workpiece.belief)


def _held_up(before: Belief, now: Belief, names: Iterable[str]) -> Belief:
    """No size can be nothing, though a Gaussian quantity may well be."""
    for name in names:
        least = _LEAST_SHARE * before.mean(name)
        if name not in (SCALE, SPREAD) and now.mean(name) < least:
            now = now.moved_to(name, least)
    return now


class Bound(NamedTuple):
    """A size beyond which no reading can be true, if what was read before is."""

    size_mm: float
    doubt_mm: float  # standard uncertainty
    is_least: bool  # whether it is the least possible; else the most


def bound_passed(start: Workpiece, stage: Stage | None, reading: Reading, cold: ColdReading) -> Bound | None:
    """The bound that a reading, `cold` on cold metal, lies beyond; None where it may be true.

    `start` is everything before the step, `stage` the zone's way through it, None where it has none.
    """
    if stage is None or not reshapes(stage.step, stage.zone) or operation(stage.step.operation).FIXES:
        return None
    dimension = reading.dimension
    have = stage.form_before.sizes_mm()
    aim_mm = stage.form_after.sizes_mm().get(dimension)
    source = stage.after.shape.worked_from(dimension, aim_mm, have) if aim_mm is not None else None
    if aim_mm is None or source is None or dimension in stage.dressed or "hole" in dimension:
        return None
    asked = dimension in stage.step.targets or dimension == stage.after.free
    was = start.size(stage.zone, source)
    if not asked or aim_mm == have[source]:
        return None
    grows = aim_mm > have[source]
    if "width" in dimension and not grows:
        return None  # it runs wide before it is dressed back
    reach = QUESTIONED_BEYOND * hypot(was.doubt, cold.doubt_mm)
    beyond = was.value - cold.size_mm if grows else cold.size_mm - was.value
    return Bound(was.value, was.doubt, is_least=grows) if beyond > reach else None
