"""`coach strike`: an entry struck out, or one that was struck out brought back."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument, whole_number
from coach.cli.reply import Reply

SUMMARY = "Strike an entry out, the latest unless one is named; striking a strike brings it back."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument("entry", metavar="ENTRY", nargs="?", help="its number, as `coach history` shows it")


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Strike it out."""
    entry = None if asked.entry is None else whole_number(asked.entry, "the number of an entry", "12")
    return enter(asked, lambda session: session.strike(entry))
