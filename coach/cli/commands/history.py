"""`coach history`: everything entered for a job."""

from __future__ import annotations

import argparse

from coach.cli.entering import job_argument
from coach.cli.opening import a_job
from coach.cli.page import moment, table
from coach.cli.reply import Reply, reply

SUMMARY = "List everything entered for a job, what was struck out included."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply:
    """List the entries in order."""
    with a_job(asked) as session:
        entries = session.history()
    rows = [
        (
            str(entry.number),
            moment(entry.at),
            f"step {entry.step}",
            f"{'(struck out) ' if entry.struck else ''}{entry.text}",
        )
        for entry in entries
    ]
    return reply(table(rows, indent=""), {"job": session.job, "entries": entries})
