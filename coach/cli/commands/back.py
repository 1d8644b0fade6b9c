"""`coach back`: back to the last finished step."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Go back to the last finished step, which then counts as not done."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Strike out that it was done."""
    return enter(asked, lambda session: session.back())
