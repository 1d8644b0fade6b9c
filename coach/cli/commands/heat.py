"""`coach heat`: one trip to the fire."""

from __future__ import annotations

from coach.cli.entering import JOB, entering

SUMMARY = "Mark one heat of the step in hand: out of the fire."
TAKES = (JOB,)
run = entering(lambda session, _: session.heat())
