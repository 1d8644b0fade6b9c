"""What is worth a look before the fire is lit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from coach.forms import listed
from coach.ledger.verdict import PlanState
from coach.quantities.words import Words, say

if TYPE_CHECKING:
    from coach.bench.outlook import Outlook
    from coach.bench.planned import Planned
    from coach.quantities import Figure


def worth_a_look(plan: Planned | Outlook) -> Iterator[Words]:
    """What to see to before the fire is lit: too little marked out."""
    if plan.verdict is PlanState.ON_PLAN:
        return
    alike: dict[str, list[tuple[str, Figure]]] = {}  # of several made alike all in one sentence
    for piece in plan.pieces:
        for zone in piece.zones:
            if zone.extra is not None:
                kind = re.sub(r" \d+$", "", piece.piece)
                own = zone.zone.removeprefix(piece.piece)
                alike.setdefault(f"{kind}{own}", []).append((zone.zone, zone.extra))
    for row in alike.values():
        each = "each " if len(row) > 1 else ""
        names = listed(name for name, _ in row)
        most = max((more for _, more in row), key=lambda more: more.value)
        yield say("Mark {} {}{} longer for a 95 % chance of enough metal.", names, each, most)
