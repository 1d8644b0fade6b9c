"""Steel that was ground as hard as its quench left it, until a crack was looked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.until_looked import until_looked
from coach.bench.wrong_bath import LOOK_FOR_A_CRACK, looked_for_a_crack
from coach.ledger.weigh_treatment import is_ground_hard
from coach.recipe.model import Step


class GroundHard(NamedTuple):
    """A zone that was ground so."""

    entry: int  # of its step's end
    zone: str
    step: Step

    @property
    def text(self) -> str:
        """What is to be looked at."""
        return f"ground before its temper, while it was hard: {LOOK_FOR_A_CRACK}"


def ground_hard(state: JobState) -> Iterator[GroundHard]:
    """Each of a finished step that ground a zone between its quench and its temper, and of which no crack
    test was made since.
    """

    def leaves(step: Step, end: int) -> dict[str, GroundHard]:
        zones = step.zones if is_ground_hard(state.plan, step) else ()
        return {zone: GroundHard(end, zone, step) for zone in zones}

    return until_looked(state, leaves, looked_for_a_crack)
