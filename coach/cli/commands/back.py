"""`coach back`: the last finished step is taken up again."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument
from coach.cli.reply import Reply

SUMMARY = "Take the last finished step up again."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Strike out that it was done."""
    return enter(asked, lambda session: session.back())
