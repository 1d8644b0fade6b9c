"""How a job stands at one moment, or would stand with something entered."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.standing import Standing
from coach.ledger.verdict import PlanState, Reason
from coach.quantities import Words


class Stood(NamedTuple):
    """The verdict, and what it rests on."""

    verdict: PlanState
    chance: float  # of making the drawing
    reason: Reason | Words  # the size that decides, or words

    @classmethod
    def of(cls, standing: Standing) -> Stood:
        """That of everything about a job."""
        return cls(standing.verdict, standing.chance, standing.reason)
