"""`coach strike`: an entry struck out, or one that was struck out brought back."""

from __future__ import annotations

from coach.cli.entering import ENTRY, JOB, Entered, enter
from coach.cli.reply import Asked, Reply

SUMMARY = "Strike an entry out, the latest unless one is named; striking a strike brings it back."
TAKES = (JOB, ENTRY)


def run(asked: Asked) -> Reply[Entered]:
    """Strike it out."""
    return enter(asked, lambda session: session.strike(asked.entry))
