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
)
run = entering(lambda session, asked: session.done(asked.heats))
