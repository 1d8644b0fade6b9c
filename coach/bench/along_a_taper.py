"""What a file, a stone or a cut changes of a size by taking off another, as of the end of a taper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from coach.ledger.nominal import Stage
from coach.ledger.zone_forecast import FinishedSize
from coach.operations import operation


def changed_along(stage: Stage, dimension: str) -> bool:
    """Whether a step that takes metal off changes a size that it neither asks for nor leaves to the metal."""
    asked = dimension == stage.after.free or dimension in stage.step.targets
    return not asked and operation(stage.step.operation).FIXES and stage.works(dimension)


def goes_along(size: FinishedSize, ahead: Iterable[Mapping[str, Stage]]) -> bool:
    """Whether a step ahead does so to a size: then it comes out as that leaves it, not as it was read."""
    stages = (one[size.zone] for one in ahead if size.zone in one)
    return any(changed_along(one, size.dimension) for one in stages)
