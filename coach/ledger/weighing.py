"""A weighing: the mass of a piece, or of the slug that fell from a hole, is a reading of its metal."""

from __future__ import annotations

from math import hypot, sqrt

from coach.ledger.plan import Plan
from coach.ledger.reading import ColdReading, Surprise, bias_name, with_bias
from coach.ledger.stepping import chance_name
from coach.ledger.working import density_g_mm3
from coach.ledger.workpiece import Estimate, Workpiece, volume_name
from coach.operations import operation
from coach.operations.does import Cause
from coach.operations.gauges import SCALES
from coach.quantities import Kind
from coach.recipe.model import Step

MASS = "mass"  # of a piece with all that is welded on it
SLUG = "slug"  # of the slug that a punch step drove out of a zone
#: Kitchen or postal scales: each weighing, the scales themselves, in proportion (common practice, no source).
SCALES_G = 1.0
SCALES_BIAS_G = 1.0
SCALES_SHARE = 0.002
#: Grades are catalogued to about this; wrought iron with its slag no better (common practice, no source).
DENSITY_DOUBT_SHARE = 0.005


def expected_mass(plan: Plan, workpiece: Workpiece, piece: str) -> Estimate:
    """The mass that is believed of a piece, grams; each metal at its own density."""
    recipe = plan.recipe
    slopes: dict[str, float] = {}
    total = 0.0
    for zone in recipe.pieces[piece].zones:
        for part in workpiece.zones[zone].parts:
            metal = recipe.pieces[recipe.drawing[part].piece].metal
            slopes[volume_name(part)] = density_g_mm3(metal)
            total += workpiece.belief.mean(volume_name(part)) * density_g_mm3(metal)
    return Estimate(total, sqrt(workpiece.belief.variance_of(slopes)), slopes)


def expected_slug(plan: Plan, workpiece: Workpiece, step: int, zone: str) -> Estimate | None:
    """The mass that a punch step is reckoned to drive out of a zone, grams; None where it drives out none."""
    stage = plan.by_step[step].get(zone)
    slug = stage.taken_mm3.get(Cause.SLUG, 0.0) if stage is not None else 0.0
    if not slug:
        return None
    density = density_g_mm3(plan.recipe.pieces[plan.recipe.drawing[zone].piece].metal)
    chance = chance_name(zone)
    doubt = workpiece.belief.doubt(chance) if chance in workpiece.belief else 0.0
    already = workpiece.belief.mean(chance) if chance in workpiece.belief else 0.0
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
    return (operation(step.operation).kind_of(dimension) if step is not None else None) or Kind.LENGTH
