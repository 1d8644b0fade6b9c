"""How hot a temper that left steel too hard is made once more: hotter than any it has had."""

from __future__ import annotations

from math import ceil, floor
from typing import Final, NamedTuple

from coach.ledger.hot_work import steels_of
from coach.ledger.hottest_temper import ReadIn, hottest_temper, soaked_at
from coach.ledger.plan import Plan
from coach.ledger.tempered import OwnCurves, row_of
from coach.operations import Does
from coach.quantities import Limits
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

#: Where its curve tells of nothing hotter, it is drawn further by so much, °C (common practice, no source).
_FURTHER_C: Final = (20.0, 40.0)
#: A temper that is no hotter than this above the last takes next to nothing off, °C (judgement).
_LEAST_FURTHER_C: Final = 10.0
#: No oven of a smithy keeps its heat within less than this, from the least to the most, °C (judgement).
_LEAST_WIDTH_C: Final = 20.0


class DrawnFurther(NamedTuple):
    """The heats of a temper that is made once more, °C."""

    heat_c: Limits
    had_c: float  # the hottest it has had, for as long as the step soaks it


def drawn_further(plan: Plan, step: Step, done: int, own: OwnCurves, read_in: ReadIn) -> DrawnFurther | None:
    """The heats that leave what a temper asks for, by the smith's own curve, above the hottest it has had.

    `done` is the number of the last step that may have tempered it. None where the step asks for no hardness,
    or no table is known for its steel.
    """
    from coach.metals.tempering import RUN_HOURS, equal_temper_c, temper_for

    wanted, soak = step.targets.get("hardness"), step.targets.get("soak")
    metals = list(steels_of(plan, step))
    row = row_of(plan, step, metals[0], own) if len(metals) == 1 else None
    if wanted is None or row is None:
        return None
    hours = soak.nominal / 3600.0 if soak is not None else RUN_HOURS
    tempers = (one for one in plan.recipe.steps[:done] if one.does(Does.TEMPERS))
    last = [one for one in tempers if {*step.zones} <= {*one.zones, *one.heated}]
    had = soaked_at(hottest_temper(plan, last[-1] if last else step, row, read_in), read_in)
    if had is None:
        return None
    try:
        had_c = had[0] if had[2] == hours else equal_temper_c(had[0], had[2], hours, row.constant)
    except OutOfRange:
        return None
    try:
        found = temper_for(row, (max(wanted.low, 1.0), min(wanted.high, 100.0)), hours)
        low_c, high_c = ceil(found.low.value), floor(found.high.value)
    except OutOfRange:
        low_c = high_c = 0
    return DrawnFurther(_window(low_c, high_c, had_c), had_c)


def _window(low_c: float, high_c: float, had_c: float) -> Limits:
    """Hotter than the hottest that it has had, and no narrower than a smith can keep.

    What a curve tells is not so where it was read harder after a heat that the curve has softer.
    """
    least_c = ceil(had_c) + _LEAST_FURTHER_C
    if high_c - least_c < _LEAST_WIDTH_C:
        low_c, high_c = (round(had_c + more) for more in _FURTHER_C)
    low_c = max(low_c, least_c)
    short_c = max(_LEAST_WIDTH_C - (high_c - low_c), 0.0)
    low_c = max(low_c - floor(0.5 * short_c), least_c)
    high_c = max(high_c, low_c + _LEAST_WIDTH_C)
    return Limits(0.5 * (low_c + high_c), low_c, high_c, stated=True)
