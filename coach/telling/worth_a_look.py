"""What is worth a look before the fire is lit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coach.ledger.verdict import PlanState
from coach.quantities.words import Words, say

if TYPE_CHECKING:
    from coach.bench.outlook import Outlook
    from coach.bench.planned import Planned


def worth_a_look(plan: Planned | Outlook) -> Iterator[Words]:
    """What to see to before the fire is lit: too little marked out."""
    for piece in plan.pieces:
        for zone in piece.zones:
            if zone.extra is not None and plan.verdict is not PlanState.ON_PLAN:
                yield say("Mark {} {} longer for a 95 % chance of enough metal.", zone.zone, zone.extra)
