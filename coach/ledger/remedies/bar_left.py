"""What is left of the bar of a piece, for a way back that takes more of it."""

from __future__ import annotations

from coach.ledger.remedies.base import Situation


def bar_left_mm(situation: Situation, piece: str) -> float | None:
    """How much is left now, as far as it is known, else as planned, mm; None where no bar was named."""
    planned = situation.plan.pieces[piece].left_over
    return situation.left_over.get(piece, planned.value if planned is not None else None)
