"""`coach correct`: a reading was really another one."""

from __future__ import annotations

from coach.cli.entering import ENTRY, JOB, Entered, enter
from coach.cli.reply import Asked, Reply
from coach.quantities.takes import Take

SUMMARY = "Say what a reading really was; it counts so from where it was taken."
TAKES = (
    JOB,
    ENTRY._replace(help="the reading's number, as `coach history` has it", needed=True),
    Take("size", "what it was", "SIZE", needed=True),
)


def run(asked: Asked) -> Reply[Entered]:
    """Correct it; `coach strike` takes the correction back."""
    return enter(asked, lambda session: session.correct(asked.entry, asked.size))
