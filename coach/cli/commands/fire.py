"""`coach fire`: the piece goes back in the fire."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, enter
from coach.cli.reply import Asked, Reply

SUMMARY = "Say that the piece is back in the fire: its soaking begins."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[Entered]:
    """Say it."""
    return enter(asked, lambda session: session.fire())
