"""Each way back taken, and the job forged on to its end with every reading on its aim: it ends as promised.

`python -m tests.bench.ways_forged_on` tries every step of every recipe of the shelf, or of those named, with
everything that goes wrong and each way that is offered for it, and tells each break; hours for all. A number
behind the names, such as 5, takes only every fifth step.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from math import isfinite
from typing import NamedTuple

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.quantities import Kind
from coach.quantities.refusal import Refusal
from tests.bench.jobs import at_step_of
from tests.bench.test_laws import NAMES
from tests.bench.test_ways_never_stop import HAPPENINGS, goes_wrong
from tests.told import why

#: What a way's chance may differ by once it is taken, as a share.
NEAR = 0.02
#: Of a step not more than so many rounds of what is asked, read on its aim.
_ROUNDS = 3


class Break(NamedTuple):
    """A way that did not end as it was offered."""

    recipe: str
    step: int
    how: str
    way: str
    words: str

    def __str__(self) -> str:
        """On one line."""
        return f"{self.recipe} {self.step} {self.how}: {self.way}: {self.words}"


def read_on_aim(job: Session) -> None:
    """All that the step in hand asks for, on its aim; its tests pass."""
    for _ in range(_ROUNDS):
        asked = [one for one in job.standing().checks if one.wanted is not None and one.is_open]
        for check in asked:
            assert check.wanted is not None
            if check.kind is Kind.TEST:
                typed = "pass"
            elif check.kind is Kind.LENGTH and isfinite(check.wanted.limits.nominal):
                typed = f"{check.wanted.limits.nominal:.2f}"
            else:
                continue
            try:
                job.read(check.name, typed)
            except Refusal:
                continue
        if not asked:
            return


def forged_on(job: Session) -> None:
    """To the end of the job, the heats as planned and every size on its aim."""
    while (step := job.standing().step) is not None:
        for _ in range(step.heats_planned - job.standing().heats):
            job.heat()
        read_on_aim(job)
        job.done()


def broken(recipe: str, step: int, how: str, name: str) -> Iterator[Break]:
    """What is not as one way offered it, in the step in hand and at the end."""
    job = at_step_of(recipe, step)
    goes_wrong(job, how)
    way = next((one for one in job.ways_back() if one.name == name), None)
    if way is None:
        return
    job.take(name)
    told = job.standing()
    if told.left_out or abs(told.chance - way.chance) >= NEAR:
        yield Break(recipe, step, how, name, f"promised {way.chance:.3f}, is {told.chance:.3f}")
    if not is_promised(way.verdict, way.chance) or told.to_right:
        return
    forged_on(job)
    ended = job.standing()
    if ended.verdict is PlanState.OFF_PLAN or ended.left_out:
        yield Break(recipe, step, how, name, f"promised {way.verdict}, ends {ended.verdict}: {why(ended)}")


def is_promised(verdict: PlanState, chance: float) -> bool:
    """Whether a way says that the job is on plan by it."""
    return verdict is PlanState.ON_PLAN and chance >= 0.95


def ways(recipe: str, step: int, how: str) -> list[str]:
    """The names of the ways offered, those that begin another job left out."""
    job = at_step_of(recipe, step)
    goes_wrong(job, how)
    return [one.name for one in job.ways_back() if not one.again]


def main(recipes: list[str], each: int) -> int:
    """Try all; the number of breaks."""
    count = tried = 0
    for recipe in recipes:
        steps = len(at_step_of(recipe, 1).recipe.steps)
        for step in range(1, steps + 2, each):
            for how in HAPPENINGS:
                for name in ways(recipe, step, how):
                    tried += 1
                    for one in broken(recipe, step, how, name):
                        count += 1
                        print(one, flush=True)
    print(f"{tried} ways tried, {count} broken")
    return count


if __name__ == "__main__":
    given = sys.argv[1:]
    each = int(given.pop()) if given and given[-1].isdigit() else 1
    sys.exit(1 if main(given or NAMES, each) else 0)
