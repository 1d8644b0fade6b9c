"""`coach aside`: a job put out of the way."""

from __future__ import annotations

from coach.cli.entering import JOB, entering

SUMMARY = "Set a job aside, below the others in the list; `coach resume` brings it back."
TAKES = (JOB,)
run = entering(lambda session, _: session.set_aside())
