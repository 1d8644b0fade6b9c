"""A treatment that was ended before all of its heats were taken: each is part of what it does."""

from __future__ import annotations

from collections.abc import Iterator

from coach.bench.job_state import JobState
from coach.bench.treated import treats
from coach.operations import Does
from coach.quantities.words import NOTHING, Words, say
from coach.recipe.model import Step

#: A treatment of one heat is that heat; only of several can some be left out (by definition).
_SEVERAL = 2


def ends_short_of_heats(step: Step, heats: int) -> Words:
    """What is said where a treatment ends with fewer heats than its step asks; else nothing.

    Forging in fewer heats is no fault: what it leaves is measured.
    """
    if not treats(step) or step.heats < _SEVERAL or not 0 < heats < step.heats:
        return NOTHING
    return say("{} of {} heats taken, and this treatment asks for each of them", heats, step.heats)


def heats_left_out(state: JobState) -> Iterator[tuple[int, str, str, int, str]]:
    """Each finished treatment that lacks heats: its entry, what is told, its zone, its step and when.

    Another normalising of the same zones that took all of its own makes it good.
    """
    for at, record in enumerate(state.records):
        step, entry = state.plan.recipe.steps[at], record.done_entry
        if entry is None or not ends_short_of_heats(step, record.heats):
            continue
        if any(
            later.step.does(Does.NORMALISES)
            and {*later.step.zones} >= {*step.zones}
            and later.heats >= state.plan.recipe.steps[later.step.number - 1].heats
            for later in state.records[at + 1 :]
        ):
            continue
        text = f"{record.heats} of {step.heats} heats were taken: {step.title}"
        yield entry, text, "", step.number, state.counted[entry].at
