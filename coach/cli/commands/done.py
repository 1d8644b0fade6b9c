"""`coach done`: the step in hand is finished."""

from __future__ import annotations

from coach.cli.entering import BLOWS, JOB, Entered, answered, number_of, with_blows
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Reply
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
    BLOWS,
)


def run(asked: Asked) -> Reply[Entered]:
    """Finish it, and enter the blows of its last heat where they are said."""
    with a_job(asked) as session:
        answers = with_blows(session, asked.blows, lambda: session.done(asked.heats, asked.at or ""))
        return answered(asked, session, answers)
