"""`coach heat`: one trip to the fire."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, enter
from coach.cli.reply import Asked, Reply

SUMMARY = "Mark one heat of the step in hand: out of the fire."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[Entered]:
    """Mark the heat."""
    return enter(asked, lambda session: session.heat())
