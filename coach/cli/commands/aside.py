"""`coach aside`: a job put out of the way."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Set a job aside, below the others in the list; `coach resume` brings it back."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Set it aside."""
    return enter(asked, lambda session: session.set_aside())
