"""`coach begun`: when a job was begun that was worked before it was entered."""

from __future__ import annotations

from coach.cli.entering import JOB, entering
from coach.quantities.takes import Take

SUMMARY = "Say when the work on a job began, where that was before it was entered."
TAKES = (
    JOB,
    Take("at", "a time of today, or a day and a time (2026-11-25 14:30)", "TIME", needed=True),
)
run = entering(lambda session, asked: session.begun_before(asked.at))
