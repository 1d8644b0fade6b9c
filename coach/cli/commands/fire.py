"""`coach fire`: the piece goes back in the fire."""

from __future__ import annotations

from coach.cli.entering import JOB, entering

SUMMARY = "Say that the piece is back in the fire: its soaking begins."
TAKES = (JOB,)
run = entering(lambda session, _: session.fire())
