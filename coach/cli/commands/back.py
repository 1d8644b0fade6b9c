"""`coach back`: back to the last finished step."""

from __future__ import annotations

from coach.cli.entering import JOB, entering

SUMMARY = "Go back to the last finished step, which then counts as not done."
TAKES = (JOB,)
run = entering(lambda session, _: session.back())
