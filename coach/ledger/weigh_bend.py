"""Weighs bends: an arc that is longer than the bar that is to make it."""

from __future__ import annotations

from math import radians
from typing import Final

from coach.ledger.nominal import Stage
from coach.operations import Does
from coach.quantities import Words, mm, say

#: An arc may reach into what is hot beside its zone by this share of that (judgement).
_BEYOND_SHARE: Final = 0.15
_THICK: Final = ("thickness", "side", "diameter", "across_flats", "width")


def arc_too_long(stage: Stage) -> Words | None:
    """What is bent to a radius and an angle whose arc its zone has no bar for; None where it has.

    The bar keeps its length along its middle: angle times inside radius and half a thickness (elementary
    geometry).
    """
    step, sizes = stage.step, stage.form_before.sizes_mm()
    angle, radius = step.targets.get("angle"), step.targets.get("radius")
    if not step.does(Does.BENDS) or angle is None or radius is None or stage.zone not in step.zones:
        return None
    long_mm = sizes.get("length")
    thick_mm = min((sizes[name] for name in _THICK if name in sizes), default=0.0)
    least_mm = radians(max(angle.low, 0.0)) * (max(radius.low, 0.0) + thick_mm / 2.0)
    if long_mm is None or least_mm <= long_mm * (1.0 + _BEYOND_SHARE):
        return None
    arc_mm = radians(angle.nominal) * (radius.nominal + thick_mm / 2.0)
    return say(
        "an arc of {} inside over {} takes {} of bar, and {} is {} long there: a smaller radius, a smaller "
        "angle, or a longer zone.",
        *(mm(radius.nominal), f"{angle.nominal:g}°", mm(arc_mm), stage.zone, mm(long_mm)),
    )
