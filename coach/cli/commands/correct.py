"""`coach correct`: a reading was really another one."""

from __future__ import annotations

from coach.cli.entering import ENTRY, JOB, entering
from coach.quantities.takes import Take

SUMMARY = "Say what a reading really was; it counts so from where it was taken."
TAKES = (
    JOB,
    ENTRY._replace(help="the reading's number, as `coach history` has it", needed=True),
    Take("size", "what it was", "SIZE", needed=True),
)
run = entering(lambda session, asked: session.correct(asked.entry, asked.size))
