"""`coach fire`: the piece goes back in the fire."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Say that the piece is back in the fire: its soaking begins."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Say it."""
    return enter(asked, lambda session: session.fire())
