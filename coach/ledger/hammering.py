"""What is known of the sizes of a step once there was more work after a reading."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from coach.ledger.belief import Belief, Change
from coach.ledger.plan import Plan
from coach.ledger.settling import HAND_SCATTER_MM, reset, scatter_mm
from coach.ledger.workpiece import Workpiece
from coach.recipe.model import Step


class SoFar(NamedTuple):
    """What was read of a step's sizes so far."""

    asked: Collection[str]  # the sizes that the step works to, as "zone.dimension"
    believed: Mapping[str, float]  # the last believed reading of each size, cold
    outset: Belief  # what was believed of the sizes before anything was read in the step


def worked_on(
    plan: Plan, now: Workpiece, step: Step, names: Sequence[str], *, least_mm: float = 0.0
) -> Workpiece:
    """Sizes that were read and have been under the hammer since: known less well than they were."""
    changes = {}
    for name in names:
        zone, dimension = name.rsplit(".", 1)
        stage = plan.by_step[step.number][zone]
        limits = step.targets[dimension]
        size = now.belief.mean(name)
        if stage.is_past(dimension, size, limits.nominal) or limits.contains(size):
            loosened = max(HAND_SCATTER_MM, scatter_mm(limits, size), least_mm) ** 2
            changes[name] = Change(size, {name: 1.0}, loosened)
        else:
            way = max(scatter_mm(limits, size), 0.5 * abs(size - limits.nominal))
            changes[name] = Change(limits.nominal, {}, way**2)
    return reset(now, changes) if changes else now


def hammered(plan: Plan, now: Workpiece, step: Step, so_far: SoFar, *, home: bool = False) -> Workpiece:
    """A heat's work on every zone that was measured in this step.

    A size that was not read itself moved too: what a reading of another size said of it no longer holds.
    With `home` it is the last work of a finished step, so that a size comes to its target.
    """
    measured = {name.rsplit(".", 1)[0] for name in so_far.believed}
    read: list[str] = []
    changes = {}
    for name in sorted(so_far.asked):
        zone, dimension = name.rsplit(".", 1)
        if zone not in measured:
            continue
        limits = step.targets[dimension]
        size = so_far.believed.get(name, now.belief.mean(name))
        gone = plan.by_step[step.number][zone].is_past(dimension, size, limits.nominal)
        right = limits.contains(size)
        if (gone and not right) or (name in so_far.believed and (gone or right or not home)):
            read.append(name)
        elif home:
            changes[name] = Change(limits.nominal, {}, scatter_mm(limits, limits.nominal) ** 2)
        else:
            changes[name] = Change(so_far.outset.mean(name), {}, so_far.outset.variance(name))
    if changes:
        now = reset(now, changes)
    return worked_on(plan, now, step, read)
