"""`coach aside`: a job put out of the way."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, enter
from coach.cli.reply import Asked, Reply

SUMMARY = "Set a job aside, below the others in the list; `coach resume` brings it back."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[Entered]:
    """Set it aside."""
    return enter(asked, lambda session: session.set_aside())
