"""`coach heat`: one trip to the fire."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Mark one heat of the step in hand: out of the fire."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Mark the heat."""
    return enter(asked, lambda session: session.heat())
