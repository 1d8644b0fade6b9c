"""`coach heat`: one trip to the fire."""

from __future__ import annotations

from coach.cli.entering import JOB, entering
from coach.quantities.takes import flag

SUMMARY = "Mark one heat of the step in hand: out of the fire."
TAKES = (JOB, flag("--fire-out", "the fire was out meanwhile: its going in counts no more"))
run = entering(lambda session, asked: session.heat_the_fire_was_out() if asked.fire_out else session.heat())
