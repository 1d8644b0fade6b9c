"""Weighs bends: an arc that is longer than the bar that is to make it."""

from __future__ import annotations

import math
from math import radians
from typing import Final

from coach.forms.ring import Ring
from coach.ledger.nominal import Stage
from coach.operations import Does
from coach.quantities import Words, mm, say

#: An arc may reach into what is hot beside its zone by this share of that (judgement).
_BEYOND_SHARE: Final = 0.15
_THICK: Final = ("thickness", "side", "diameter", "across_flats", "width")


def across_bend_mm(stage: Stage) -> float:
    """How thick a bar is along the radius that it is bent to, mm: its width, where that is on its edge."""
    sizes = (stage.form_after.unbent() or stage.form_before).sizes_mm()
    if stage.step.does(Does.ON_EDGE) and "width" in sizes:
        return sizes["width"]
    return min((sizes[name] for name in _THICK if name in sizes), default=0.0)


def not_on_edge(stage: Stage) -> Words | None:
    """A bend on edge of a bar that has none, or to a ring that stands on its edge; None where it is one."""
    sizes = stage.form_before.sizes_mm()
    if not stage.step.does(Does.ON_EDGE) or stage.zone not in stage.step.zones:
        return None
    if sizes.get("width", 0.0) > sizes.get("thickness", math.inf):
        closed = stage.form_after
        if not isinstance(closed, Ring):
            return None
        wall_mm = (closed.outer_diameter_mm - closed.inner_diameter_mm) / 2
        if closed.thickness_mm <= wall_mm:
            return None
        return say("{} is to stand on its edge, so its bar is bent flat: write bend.", stage.zone)
    return say("{} has no edge to be bent on, for it is not wider than thick: write bend.", stage.zone)


def arc_too_long(stage: Stage) -> Words | None:
    """What is bent to a radius and an angle whose arc its zone has no bar for; None where it has.

    The bar keeps its length along its middle: angle times inside radius and half a thickness (elementary
    geometry). What is asked for is what is aimed at: that its limits reach what the bar has is luck.
    """
    step, sizes = stage.step, stage.form_before.sizes_mm()
    angle, radius = step.targets.get("angle"), step.targets.get("radius")
    if not step.does(Does.BENDS) or angle is None or radius is None or stage.zone not in step.zones:
        return None
    long_mm = sizes.get("length")
    arc_mm = radians(angle.nominal) * (radius.nominal + across_bend_mm(stage) / 2.0)
    if long_mm is None or arc_mm <= long_mm * (1.0 + _BEYOND_SHARE):
        return None
    return say(
        "an arc of {} inside over {} takes {} of bar, and {} is {} long there: a smaller radius, a smaller "
        "angle, or a longer zone.",
        *(mm(radius.nominal), f"{angle.nominal:g}°", mm(arc_mm), stage.zone, mm(long_mm)),
    )


def inside_radius_mm(stage: Stage) -> float | None:
    """The tightest inside radius that a step makes; None where nobody says it."""
    step, sizes = stage.step, stage.form_after.sizes_mm()
    if "radius" in step.targets:
        return step.targets["radius"].nominal
    if stage.form_after.KIND == stage.form_before.KIND:
        return None  # what was curled before
    if "inside_height" in sizes:
        return 0.0  # a collar is closed round corners
    across = ("inner_diameter", "inner_width", "inside", "eye", "end_diameter")
    return next((sizes[name] / 2.0 for name in across if name in sizes), None)
