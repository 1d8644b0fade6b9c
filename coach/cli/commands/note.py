"""`coach note`: something to be remembered with the job."""

from __future__ import annotations

import argparse

from coach.cli.entering import enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Write something down with the job."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument("text", metavar="TEXT", nargs="+", help="what is to be remembered")


def run(asked: argparse.Namespace) -> Reply:
    """Write it down."""
    return enter(asked, lambda session: session.note(" ".join(asked.text)))
