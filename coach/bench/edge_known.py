"""How wide the bevel of an edge is on the thickness that comes to the stone."""

from __future__ import annotations

from collections.abc import Iterator

from coach.finish.edge import bevel_on_taper
from coach.ledger.body_angle import body_angle
from coach.ledger.plan import Plan
from coach.quantities import NOTHING, Words, degrees, mm, say
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

#: A body that opens by less than this is told as one with parallel faces (our choice).
_OPENS_DEG = 1.0


def edge_words(plan: Plan, step: Step) -> Iterator[Words]:
    """What a bevel of the angle that is asked for measures, by the taper of the body behind its edge."""
    angle, stage = step.targets.get("edge_angle"), plan.by_step[step.number].get(step.zones[0])
    if angle is None or stage is None:
        return
    sizes = stage.form_before.sizes_mm()
    thick_mm = sizes.get("edge", sizes.get("end_thickness", sizes.get("thickness")))
    if thick_mm is None:
        return
    own = body_angle(sizes, stage.before.shape.options)
    try:
        both = bevel_on_taper(angle.nominal, thick_mm, own.degrees, 2, flat=own.flat)
        one = bevel_on_taper(angle.nominal, thick_mm, own.degrees, 1, flat=own.flat)
    except OutOfRange as reason:
        yield reason.words
        return
    opens = say(", on a body that opens by {},", degrees(own.degrees))
    yield say(
        "{} on an edge {} thick{} is a bevel {} wide on either side, or {} on one side alone, along the "
        "tool; on its slope the ground face is {}, or {}.",
        *(degrees(angle.nominal), mm(thick_mm), opens if own.degrees >= _OPENS_DEG else NOTHING),
        *(mm(both.along_mm), mm(one.along_mm), mm(both.face_mm), mm(one.face_mm)),
    )
