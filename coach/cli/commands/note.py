"""`coach note`: something to be remembered with the job."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Refused, Reply

SUMMARY = "Write something down with the job."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument("text", metavar="TEXT", nargs="+", help="what is to be remembered")
    parser.add_argument(
        "--right", action="store_true", help="put it on the list of things to put right, `coach right`"
    )
    parser.add_argument("--zone", metavar="ZONE", help="of which zone it is to be put right")


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Write it down."""
    text = " ".join(asked.text)
    if asked.zone is not None and not asked.right:
        raise Refused("--zone goes with --right: a note belongs to no zone.")
    if asked.right:
        return enter(asked, lambda session: session.to_right(text, asked.zone))
    return enter(asked, lambda session: session.note(text))
