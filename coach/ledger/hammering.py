"""What is known of the sizes of a step once there was more work after a reading."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from coach.ledger.belief import Belief, Change, either
from coach.ledger.plan import Plan
from coach.ledger.settling import HAND_SCATTER_MM, outside_share, reset, scatter_mm, worked_again_share
from coach.ledger.workpiece import Workpiece
from coach.recipe.model import Step


class SoFar(NamedTuple):
    """What was read of a step's sizes so far."""

    asked: Collection[str]  # the sizes that the step works to, as "zone.dimension"
    believed: Mapping[str, float]  # the last believed reading of each size, cold
    outset: Belief  # what was believed of the sizes before anything was read in the step


def worked_on(
    plan: Plan,
    now: Workpiece,
    step: Step,
    names: Sequence[str],
    *,
    least_mm: float = 0.0,
    home: bool = False,
) -> Workpiece:
    """Sizes that were read and have been under the hammer since: known less well than they were.

    One that is not there yet is on its way, or with `home` at its target.
    """
    changes = {}
    for name in names:
        limits, size = step.targets[name.rsplit(".", 1)[1]], now.belief.mean(name)
        stays = Change(size, {name: 1.0}, max(HAND_SCATTER_MM, scatter_mm(limits, size), least_mm) ** 2)
        way = scatter_mm(limits, limits.nominal if home else size)
        way = way if home else max(way, 0.5 * abs(size - limits.nominal))
        moved = Change(limits.nominal, {}, way**2)
        share = _again_share(plan, now, step, name)
        changes[name] = either(stays, moved, share, now.belief.variance(name), name)
    return reset(now, changes) if changes else now


def _again_share(plan: Plan, now: Workpiece, step: Step, name: str) -> float:
    """How surely a size that was read is worked on to its target."""
    zone, dimension = name.rsplit(".", 1)
    stage, belief = plan.by_step[step.number][zone], now.belief
    limits = step.targets[dimension]
    return worked_again_share(stage, dimension, belief.mean(name), limits, belief.doubt(name))


def _gone_share(plan: Plan, now: Workpiece, step: Step, name: str) -> float:
    """How surely a size that was not read is past its target and outside."""
    zone, dimension = name.rsplit(".", 1)
    limits, size_mm = step.targets[dimension], now.belief.mean(name)
    if not plan.by_step[step.number][zone].is_past(dimension, size_mm, limits.nominal):
        return 0.0
    return outside_share(max(limits.low - size_mm, size_mm - limits.high), now.belief.doubt(name))


def hammered(plan: Plan, now: Workpiece, step: Step, so_far: SoFar, *, home: bool = False) -> Workpiece:
    """A heat's work on every zone that was measured in this step.

    A size that was not read itself moved too: what a reading of another size said of it no longer holds.
    With `home` it is the last work of a finished step, so that a size comes to its target.
    """
    measured = {name.rsplit(".", 1)[0] for name in so_far.believed}
    read: list[str] = []
    changes = {}
    for name in sorted(so_far.asked):
        if name.rsplit(".", 1)[0] not in measured:
            continue
        if name in so_far.believed:
            read.append(name)
            continue
        limits, size = step.targets[name.rsplit(".", 1)[1]], now.belief.mean(name)
        moved = Change(limits.nominal, {}, scatter_mm(limits, limits.nominal) ** 2)
        if not home:
            moved = Change(so_far.outset.mean(name), {}, so_far.outset.variance(name))
        gone = _gone_share(plan, now, step, name)
        loosened = max(HAND_SCATTER_MM, scatter_mm(limits, size)) ** 2
        stays = Change(size, {name: 1.0}, loosened)
        changes[name] = either(stays, moved, 1.0 - gone, now.belief.variance(name), name)
    if changes:
        now = reset(now, changes)
    return worked_on(plan, now, step, read, home=home)


def worked_to_the_end(
    plan: Plan, now: Workpiece, step: Step, names: Collection[str], read: Collection[str], left: float
) -> Workpiece:
    """The sizes that a step works to, at its end: what is not there yet comes to its target.

    Args:
        plan: the plan.
        now: the workpiece.
        step: the step that is going on.
        names: the sizes that it works to.
        read: those of them that were read.
        left: heats to come, in which what is there lies under the hammer with the rest.
    """
    changes = {}
    for name in sorted(names):
        limits, size = step.targets[name.rsplit(".", 1)[1]], now.belief.mean(name)
        moved = Change(limits.nominal, {}, scatter_mm(limits, limits.nominal) ** 2)
        loosened = min(left, 1.0) * max(HAND_SCATTER_MM, scatter_mm(limits, size)) ** 2
        share = _again_share(plan, now, step, name)
        if name not in read:
            loosened = 0.0
            share = 1.0 - _gone_share(plan, now, step, name)
        stays = Change(size, {name: 1.0}, loosened)
        changes[name] = either(stays, moved, share, now.belief.variance(name), name)
    return reset(now, changes) if changes else now
