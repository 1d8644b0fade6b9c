"""`coach correct`: a reading was really another one."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, enter, job_argument, whole_number
from coach.cli.reply import Reply

SUMMARY = "Say what a reading really was; it counts so from where it was taken."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument("entry", metavar="ENTRY", help="the reading's number, as `coach history` has it")
    parser.add_argument("size", metavar="SIZE", help="what it was")


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Correct it; `coach strike` takes the correction back."""
    number = whole_number(asked.entry, "the number of an entry", "12")
    return enter(asked, lambda session: session.correct(number, asked.size))
