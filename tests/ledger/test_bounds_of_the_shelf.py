"""A law: what a step wants of the size that the metal settles is possible in it, whatever was read beside it.

Where the step says that size itself, that holds as long as the section is where it says, too.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

import pytest

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.nominal import Stage
from coach.ledger.reading import Reading, taken_in
from coach.ledger.wanting import wanted
from coach.ledger.working import LedgerError, reshapes
from coach.ledger.workpiece import Workpiece
from coach.operations import operation
from coach.recipe.model import Step
from tests.ledger.test_more_is_known import NAMES, planned

_AT = ("nominal", "low", "high")
_LAST = 90


def sections_read(stage: Stage) -> Iterator[dict[str, float]]:
    """The sizes beside it: none read, each alone and all together, in the middle and at the limits."""
    targets = stage.step.targets
    asked = [name for name in targets if name in stage.form_after.sizes_mm() and name != stage.after.free]
    yield {}
    for at in _AT:
        sizes = {name: getattr(targets[name], at) for name in asked}
        told = {name: size_mm for name, size_mm in sizes.items() if 0.0 < size_mm < inf}
        yield told
        yield from ({name: size_mm} for name, size_mm in told.items())
    have = stage.form_before.sizes_mm()
    yield from ({name: have[name]} for name in asked if name in have)


def known_before(start: Workpiece, zone: str, stage: Stage) -> Workpiece:
    """The zone with every size read before the step, so that it is known to a hair."""
    for name in stage.form_before.sizes_mm():
        if start.zones[zone].shape.one_with(name) is None:
            start = taken_in(start, Reading(zone, name, start.size(zone, name).value, "calliper"))
    return start


def refused(start: Workpiece, name: str, step: Step, stage: Stage, read: dict[str, float]) -> str:
    """What speaks against the size that is wanted once these were read; empty where nothing does."""
    plan, _ = planned(name)
    zone, free = stage.zone, stage.after.free
    heats: list[Mark] = [HeatMark(at + 1) for at in range(step.heats)]
    beside = [
        ReadingMark(30 + at, Reading(zone, one, size_mm, "calliper"))
        for at, (one, size_mm) in enumerate(read.items())
    ]
    try:
        course = follow(plan, start, step, [*heats, *beside], finished=False)
        limits, _ = wanted(plan, course.now, step, zone, free)
        if limits is None or any(one.questioned for one in course.outcomes):
            return ""
        if limits.high < inf and any(step.targets[one].nominal != size_mm for one, size_mm in read.items()):
            return ""
        last = ReadingMark(_LAST, Reading(zone, free, limits.nominal, "calliper"))
        course = follow(plan, start, step, [*heats, *beside, last], finished=False)
    except LedgerError:
        return ""
    found = next(one for one in course.outcomes if one.mark.entry == _LAST)
    if found.bound is None:
        return ""
    return (
        f"{step.number} {zone}.{free} {limits.nominal:.1f} wanted, {found.bound.size_mm:.1f} possible, {read}"
    )


@pytest.mark.parametrize("name", NAMES)
def test_no_step_refuses_the_size_that_it_wants(name: str) -> None:
    plan, before = planned(name)
    found = []
    for step in plan.recipe.steps:
        for zone, stage in plan.by_step[step.number].items():
            if not reshapes(step, zone) or operation(step.operation).FIXES or stage.leaves(stage.after.free):
                continue
            start = before[step.number - 1]
            for begun in (start, known_before(start, zone, stage)):
                found += [refused(begun, name, step, stage, read) for read in sections_read(stage)]
    assert [one for one in found if one] == []
