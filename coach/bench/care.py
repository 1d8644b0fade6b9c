"""What holds all day, and when it is said: as the job begins, and before its first fire is lit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.operations.does import HeatKind
from coach.operations.hazards import Moment, holds_all_day
from coach.recipe.model import Recipe, Step


class SaidOnce(NamedTuple):
    """What can hurt all day, as it is said once."""

    moment: Moment
    cautions: tuple[str, ...]


def care_as_it_begins(recipe: Recipe) -> tuple[SaidOnce, ...]:
    """Of a job that has just begun; of its first fire too, where its first step takes one."""
    first = recipe.steps[0]
    return (_said(recipe, Moment.BEGIN), *((_said(recipe, Moment.FIRST_FIRE),) if first.heats else ()))


def care_of_first_fire(recipe: Recipe, step: Step | None, before: Sequence[Entry]) -> tuple[SaidOnce, ...]:
    """Of a job whose last entry finished the step before `step`; nothing where a fire was lit before.

    `before` are the entries before that one: who comes back to a step is not told again.
    """
    first = next((one.number for one in recipe.steps if one.heats), 0)
    if step is None or step.number != first:
        return ()
    if any(isinstance(one.body, Done) and one.body.step == first - 1 for one in before):
        return ()
    return (_said(recipe, Moment.FIRST_FIRE),)


def _said(recipe: Recipe, moment: Moment) -> SaidOnce:
    return SaidOnce(
        moment, holds_all_day(moment, {HeatKind(one.heat_kind) for one in recipe.steps if one.heats})
    )
