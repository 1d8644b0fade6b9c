"""A weighing: the mass of a piece, or of the slug that fell from a hole, is a reading of its metal."""

from __future__ import annotations

from math import hypot, sqrt

from coach.ledger.plan import Plan
from coach.ledger.reading import ColdReading, Surprise, with_bias
from coach.ledger.stepping import chance_name
from coach.ledger.working import piece_density_g_mm3
from coach.ledger.workpiece import Estimate, Workpiece, volume_name
from coach.operations import operation
from coach.operations.does import Cause
from coach.operations.gauges import SCALES, bias_name
from coach.operations.measures import BOW, HARDNESS, MASS, SLUG, WIND
from coach.quantities import Kind
from coach.recipe.model import Step

#: Kitchen or postal scales: each weighing, the scales themselves, in proportion (common practice, no source).
SCALES_G = 1.0
SCALES_BIAS_G = 1.0
SCALES_SHARE = 0.002
#: Grades are catalogued to about this; wrought iron with its slag no better (common practice, no source).
DENSITY_DOUBT_SHARE = 0.005


def expected_mass(plan: Plan, workpiece: Workpiece, step: Step, zone: str, dimension: str) -> Estimate | None:
    """What is believed of a weighing at a step, grams; None for a slug where the step drives out none.

    A piece goes by its own name instead of a zone's, each of its metals at its own density.
    """
    belief = workpiece.belief
    if dimension == MASS:
        parts = [part for one in plan.recipe.pieces[zone].every_zone for part in workpiece.zones[one].parts]
        slopes = {volume_name(part): piece_density_g_mm3(plan.recipe.piece_of(part)) for part in parts}
        total = sum(belief.mean(name) * density for name, density in slopes.items())
        return Estimate(total, sqrt(belief.variance_of(slopes)), slopes)
    stage = plan.by_step[step.number].get(zone)
    slug = stage.taken_mm3.get(Cause.SLUG, 0.0) if stage is not None else 0.0
    if not slug:
        return None
    density, chance = piece_density_g_mm3(plan.recipe.piece_of(zone)), chance_name(zone)
    already, doubt = (belief.mean(chance), belief.doubt(chance)) if chance in belief else (0.0, 0.0)
    return Estimate((slug + already) * density, doubt * density, {chance: density})


def surprise_of_mass(expected: Estimate, mass_g: float) -> Surprise:
    """A weighing against what was expected of it."""
    own = hypot(SCALES_G, (SCALES_SHARE + DENSITY_DOUBT_SHARE) * mass_g)
    return Surprise(expected, ColdReading(mass_g, own, SCALES_BIAS_G))


def weighed(workpiece: Workpiece, surprise: Surprise) -> Workpiece:
    """The workpiece with one weighing believed: a scalar update with its full covariance."""
    cold, bias = surprise.cold, bias_name(SCALES)
    belief = with_bias(workpiece.belief, SCALES, cold)
    slopes = {**surprise.expected.slopes, bias: 1.0}
    off = cold.size_mm - surprise.expected.value - belief.mean(bias)
    return workpiece._replace(belief=belief.update(slopes, off, cold.chance_mm**2))


def kind_of(step: Step | None, dimension: str) -> Kind:
    """What a size that is read at a step is."""
    if dimension in (MASS, SLUG):
        return Kind.MASS
    if dimension == HARDNESS:
        return Kind.HARDNESS  # hard steel can be put to a tester at any step
    if dimension in (BOW, WIND):
        return Kind.GAP
    return (operation(step.operation).kind_of(dimension) if step is not None else None) or Kind.LENGTH
