"""`coach done`: the step in hand is finished."""

from __future__ import annotations

from coach.cli.entering import JOB, entering, number_of
from coach.quantities.takes import Take

SUMMARY = "Finish the step in hand."
TAKES = (
    JOB,
    Take(
        "--heats",
        "how many heats it took; without it, those marked, or else the planned ones",
        "N",
        number_of("a number of heats", "3"),
    ),
    Take("--at", "when it was finished: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
)
run = entering(lambda session, asked: session.done(asked.heats, asked.at or ""))
