"""Hardened steel that was left without its temper, against advice, until a crack was looked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.resting import waiting_at
from coach.bench.wrong_bath import CRACK_TEST
from coach.ledger.verdict import Verdict
from coach.log.kinds.done import Done
from coach.log.kinds.heat import Heat
from coach.log.kinds.late_heat import LateHeat
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.operations import Does
from coach.recipe.model import Step


class LeftHard(NamedTuple):
    """A zone that lay so."""

    entry: int  # of the rest
    zone: str
    step: Step  # its quench

    @property
    def text(self) -> str:
        """What is to be looked at."""
        return "left hard, without its temper, while the job rested: look for a crack (crack test)"


def left_hard(state: JobState) -> Iterator[LeftHard]:
    """Each by the last such rest, where no crack test was made since."""
    found: dict[str, tuple[int, LeftHard]] = {}
    steps, finished, begun = state.plan.recipe.steps, 0, False
    places = {number: place for place, number in enumerate(state.counted)}
    for number, entry in state.counted.items():
        if isinstance(entry.body, Done):
            finished, begun = entry.body.step, False
        elif isinstance(entry.body, Heat | LateHeat | Reading):
            begun = begun or entry.body.step == finished + 1
        elif isinstance(entry.body, Rested) and entry.body.forced:
            for zone, step in waiting_at(steps, finished, begun=begun).items():
                if step.does(Does.QUENCHES):
                    found[zone] = places[number], LeftHard(number, zone, step)
    for course in state.courses() if found else ():
        for one in course.outcomes:
            zone, dimension = one.mark.reading[:2]
            looked = dimension == CRACK_TEST and one.verdict in (Verdict.GOOD, Verdict.OUT)
            if looked and zone in found and places.get(one.mark.entry, -1) > found[zone][0]:
                del found[zone]
    yield from (one for _, one in found.values())
