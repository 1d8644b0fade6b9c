"""What a step can make of a size at all: drawing makes nothing shorter, and no bar thicker than it was."""

from __future__ import annotations

from math import hypot
from typing import NamedTuple

from coach.ledger.nominal import Stage
from coach.ledger.reading import QUESTIONED_BEYOND, ColdReading, Reading
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece
from coach.operations import operation


class Bound(NamedTuple):
    """A size beyond which no reading can be true, if what was read before is."""

    size_mm: float
    doubt_mm: float  # standard uncertainty
    is_least: bool  # whether it is the least possible; else the most


def bound_passed(start: Workpiece, stage: Stage | None, reading: Reading, cold: ColdReading) -> Bound | None:
    """The bound that a reading lies beyond; None where it may be true.

    Args:
        start: everything before the step.
        stage: the zone's way through the step; None where the step has nothing to do with it.
        reading: the size as it was read.
        cold: the same on cold metal.
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
