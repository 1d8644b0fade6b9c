"""`coach fire`: the piece goes back in the fire."""

from __future__ import annotations

from coach.cli.entering import JOB, entering
from coach.quantities.takes import Take

SUMMARY = "Say that the piece is back in the fire: its soaking begins."
TAKES = (
    JOB,
    Take("--at", "when it went in: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
)
run = entering(lambda session, asked: session.fire_then(at=asked.at) if asked.at else session.fire())
