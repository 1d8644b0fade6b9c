"""`coach done`: the step in hand is finished."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument, whole_number
from coach.cli.reply import Reply

SUMMARY = "Finish the step in hand."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument(
        "--heats",
        metavar="N",
        help="how many heats it took; without it, those marked, or else the planned ones",
    )


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Finish the step and say what comes next."""
    heats = None if asked.heats is None else whole_number(asked.heats, "a number of heats", "3")
    return enter(asked, lambda session: session.done(heats))
