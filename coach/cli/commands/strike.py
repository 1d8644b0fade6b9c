"""`coach strike`: an entry struck out, or one that was struck out brought back."""

from __future__ import annotations

from coach.cli.entering import ENTRY, JOB, entering

SUMMARY = "Strike an entry out, the latest unless one is named; striking a strike brings it back."
TAKES = (JOB, ENTRY)
run = entering(lambda session, asked: session.strike(asked.entry))
