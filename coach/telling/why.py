"""Why a whole job stands as it does, or the plan of one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.bench.righting import Right
from coach.bench.skin import SteelSkin
from coach.ledger.reason import Reason
from coach.telling.chance import chance_text
from coach.telling.reasons import reason_text
from coach.telling.skin import short_of_stone
from coach.telling.words import sentence

if TYPE_CHECKING:
    from coach.bench.planned import Planned
    from coach.bench.standing import Standing
    from coach.telling.writing import Shown


def why_text(standing: Standing | Planned, shown: Shown) -> str:
    """The reason of its verdict, in a sentence or two."""
    reason = standing.reason
    if isinstance(reason, Reason):
        return reason_text(reason, shown)
    if isinstance(reason, SteelSkin):
        return sentence(short_of_stone(reason), shown)
    if isinstance(reason, Right):
        told = sentence(reason.words, shown)
        return f"{told} Put it right before going on; of metal there is enough."
    return sentence(reason, shown)


def stands_text(standing: Standing | Planned, shown: Shown) -> str:
    """On plan, tight or off plan, the chance, and why."""
    told = f"{standing.verdict.capitalize()}, {chance_text(standing.chance)}"
    return f"{told}: {why_text(standing, shown)}"
