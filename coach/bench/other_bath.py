"""The bath that a step is quenched in, where it is another than the recipe's: told in a line."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from coach.bench.entering import EntryFault
from coach.bench.file_amended import BATH, FileChanges, StepChanged
from coach.bench.job_state import JobState
from coach.forms import listed
from coach.metals.quenches import QUENCHES
from coach.operations import Does
from coach.quantities.errors import briefly, did_you_mean
from coach.quantities.words import say

if TYPE_CHECKING:
    from coach.log.kinds.quenched_in import QuenchedIn

#: How the line is written: `quench 7 = oil`, `quenched 7 in oil`, `7 quenched in oil`.
_QUENCHED: Final = re.compile(
    r"(?:quench(?:ed)?\s+(?:step )?(?P<step>\d{1,4})|(?:step )?(?P<other>\d{1,4}) quenched)"
    r"\s*(?:=|\bin\b)\s*(?P<bath>.+)",
    re.IGNORECASE,
)


def other_bath(state: JobState, line: str) -> tuple[QuenchedIn, FileChanges] | None:
    """The entry of the bath that a line tells, and what it changes; None where it tells of none.

    It may be of a step that is done, in hand or ahead. Raises EntryFault where it cannot be.
    """
    from coach.log.kinds.quenched_in import QuenchedIn

    told = " ".join(line.split())
    if (found := _QUENCHED.fullmatch(told)) is None:
        return None
    number, bath = int(found["step"] or found["other"]), found["bath"].strip().lower()
    steps = state.plan.recipe.steps
    if ";" in bath:
        raise EntryFault("A bath is told by itself: quench {} = {}.", number, bath.partition(";")[0].strip())
    if not 1 <= number <= len(steps):
        raise EntryFault(f"There is no step {number}: the last one is {len(steps)}.")
    step = steps[number - 1]
    if not step.does(Does.QUENCHES):
        quenches = [str(one.number) for one in steps if one.does(Does.QUENCHES)]
        where = f"step {listed(quenches)} does" if quenches else "no step of this job does"
        raise EntryFault("Step {}, {}, quenches nothing: {}.", number, step.title, where)
    if bath not in QUENCHES:
        hint = did_you_mean(bath, QUENCHES, f"there are {listed(QUENCHES)}.")
        raise EntryFault("{} is no bath that is known: {}", briefly(bath), hint)
    if bath == step.quench:
        raise EntryFault("Step {}, {}, is quenched in {} already.", number, step.title, bath)
    words = say("its quench {}, was {}", bath, step.quench) if step.quench else say("its quench {}", bath)
    changed = StepChanged(number, step.title, BATH, words)
    return QuenchedIn(step=number, quench=bath), FileChanges((), (changed,), ())
