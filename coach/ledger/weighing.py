"""A weighing: the mass of a piece, or of the slug that fell from a hole, is a reading of its metal."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot, sqrt

from coach.ledger.belief import Belief, Change
from coach.ledger.plan import Plan
from coach.ledger.reading import ColdReading, Surprise, with_bias
from coach.ledger.stepping import chance_name
from coach.ledger.working import density_g_mm3, piece_density_g_mm3
from coach.ledger.workpiece import (
    FULLNESS,
    FULLNESS_DOUBT_SHARE,
    Estimate,
    Workpiece,
    fire_by_share,
    volume_name,
)
from coach.operations import operation
from coach.operations.does import Cause
from coach.operations.gauges import SCALES, bias_name
from coach.operations.measures import BOW, DIAGONALS, HARDNESS, MASS, SLUG, WIND
from coach.quantities import Kind
from coach.recipe.model import Step

#: Kitchen or postal scales: each weighing, and what they get wrong every time, of itself and in proportion
#: (common practice, no source).
SCALES_G = 1.0
SCALES_BIAS_G = 1.0
SCALES_SHARE = 0.002
#: Grades are catalogued to about this; wrought iron with its slag no better (common practice, no source).
DENSITY_DOUBT_SHARE = 0.005
#: The belief's name for what scales read too much, as a share.
_SCALES_TOO_MUCH = "scales, in proportion"
_DENSITY = "density of "


def _density_name(metal: str) -> str:
    """The belief's name for how much denser a metal is than its grade says, as a share."""
    return _DENSITY + metal


def expected_mass(plan: Plan, workpiece: Workpiece, step: Step, zone: str, dimension: str) -> Estimate | None:
    """What is believed of a weighing at a step, grams; None for a slug where the step drives out none.

    A piece goes by its own name instead of a zone's, each of its metals at its own density. What that is off,
    and the scales in proportion, is the same at each weighing: so how much lighter the piece has become is
    known far better than how heavy it is.
    """
    belief = workpiece.belief
    if dimension == MASS:
        return _expected_of_piece(plan, workpiece, zone)
    stage = plan.by_step[step.number].get(zone)
    slug = stage.taken_mm3.get(Cause.SLUG, 0.0) if stage is not None else 0.0
    if not slug:
        return None
    density, chance = piece_density_g_mm3(plan.recipe.piece_of(zone)), chance_name(zone)
    already, doubt = (belief.mean(chance), belief.doubt(chance)) if chance in belief else (0.0, 0.0)
    return Estimate((slug + already) * density, doubt * density, {chance: density})


def _expected_of_piece(plan: Plan, workpiece: Workpiece, name: str) -> Estimate:
    belief, total_g, hammered_g = workpiece.belief, 0.0, 0.0
    full = 1.0 + (belief.mean(FULLNESS) if FULLNESS in belief else 0.0)
    slopes: dict[str, float] = {}
    states = (workpiece.zones[one] for one in plan.recipe.pieces[name].every_zone)
    for part, hammered in ((part, state.hammered) for state in states for part in state.parts):
        volume, shares = volume_name(part), plan.recipe.piece_of(part).shares
        slopes[volume] = 0.0
        for metal, share in shares.items():
            off, g_mm3 = _density_name(metal), share * density_g_mm3(metal) * (full if hammered else 1.0)
            g_mm3 *= 1.0 + (belief.mean(off) if off in belief else 0.0)
            slopes[volume] += g_mm3
            slopes[off] = slopes.get(off, 0.0) + g_mm3 * belief.mean(volume)
        part_g = slopes[volume] * belief.mean(volume)
        total_g, hammered_g = total_g + part_g, hammered_g + part_g * hammered
    slopes[_SCALES_TOO_MUCH] = total_g
    if hammered_g:
        slopes[FULLNESS] = hammered_g / full
    return Estimate(total_g, sqrt(belief.variance_of(slopes)), slopes)


def surprise_of_mass(expected: Estimate, mass_g: float, belief: Belief) -> Surprise:
    """A weighing against what was expected of it."""
    new_g = (expected.slopes[name] * share for name, share in _in_proportion(expected.slopes, belief).items())
    return Surprise(expected, ColdReading(mass_g, SCALES_G, hypot(SCALES_BIAS_G, *new_g)))


def weighed(workpiece: Workpiece, surprise: Surprise) -> Workpiece:
    """The workpiece with one weighing believed: a scalar update with its full covariance."""
    cold, bias = surprise.cold, bias_name(SCALES)
    new = _in_proportion(surprise.expected.slopes, workpiece.belief)
    belief = with_bias(workpiece.belief, SCALES, cold._replace(bias_mm=SCALES_BIAS_G))
    belief = belief.predict({name: Change(0.0, variance=share**2) for name, share in new.items()})
    if FULLNESS in new:
        belief = belief.predict(_hold_less(workpiece, belief))
    slopes = {**surprise.expected.slopes, bias: 1.0}
    off = cold.size_mm - surprise.expected.value - belief.mean(bias)
    updated = belief.update(slopes, off, cold.chance_mm**2)
    return workpiece._replace(belief=fire_by_share(belief, updated))


def _hold_less(workpiece: Workpiece, belief: Belief) -> dict[str, Change]:
    """Hammered zones that were not measured: their sizes hold what came of the bar, less what bulges."""
    states = [one for one in workpiece.zones.values() if one.hammered and not one.measured]
    names = [name for one in states for part in one.parts if (name := volume_name(part)) in belief]
    mean = belief.mean
    return {name: Change(mean(name), {name: 1.0, FULLNESS: -mean(name)}) for name in names}


def _in_proportion(slopes: Mapping[str, float], belief: Belief) -> dict[str, float]:
    """The doubt of what a weighing gets wrong in proportion and none has told of yet, each as a share."""
    of = {_SCALES_TOO_MUCH: SCALES_SHARE, FULLNESS: FULLNESS_DOUBT_SHARE}
    names = (name for name in slopes if name in of or name.startswith(_DENSITY))
    return {name: of.get(name, DENSITY_DOUBT_SHARE) for name in names if name not in belief}


def kind_of(step: Step | None, dimension: str) -> Kind:
    """What a size that is read at a step is."""
    if dimension in (MASS, SLUG):
        return Kind.MASS
    if dimension == HARDNESS:
        return Kind.HARDNESS  # hard steel can be put to a tester at any step
    if dimension in (BOW, DIAGONALS, WIND):
        return Kind.GAP
    return (operation(step.operation).kind_of(dimension) if step is not None else None) or Kind.LENGTH
