"""`coach rest`: the job is put down until another time."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, answered, job_argument
from coach.cli.opening import a_job
from coach.cli.reply import Reply

SUMMARY = "Put the job down until another time, where that is safe."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument("--insist", action="store_true", help="put it down although it should not rest here")


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Put it down; refused, with the reason, where the job may not rest."""
    with a_job(asked) as session:
        answer = session.rest(force=asked.insist)
        return answered(session, [answer], (*session.rest_words(), *session.summary()))
