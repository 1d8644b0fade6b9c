"""`coach done`: the step in hand is finished."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, enter, number_of
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
)


def run(asked: Asked) -> Reply[Entered]:
    """Finish the step and say what comes next."""
    return enter(asked, lambda session: session.done(asked.heats))
