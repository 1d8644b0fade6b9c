"""`coach back`: back to the last finished step."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, enter
from coach.cli.reply import Asked, Reply

SUMMARY = "Go back to the last finished step, which then counts as not done."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[Entered]:
    """Strike out that it was done."""
    return enter(asked, lambda session: session.back())
