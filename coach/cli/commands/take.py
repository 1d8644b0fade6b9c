"""`coach take`: one of the ways back is taken."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Take a way back; `coach strike` strikes it out again."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument(
        "way",
        metavar="WAY",
        help="its name as `coach ways` lists it, or as much of it as no other begins with",
    )


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Take it."""
    return enter(asked, lambda session: session.take(asked.way))
