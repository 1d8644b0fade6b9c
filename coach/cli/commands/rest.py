"""`coach rest`: the job is put down until another time."""

from __future__ import annotations

import argparse

from coach.cli.entering import Entered, answered, job_argument
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Reply
from coach.telling.page import page
from coach.telling.rest import care_section
from coach.telling.summary import summary
from coach.telling.writing import Shown

SUMMARY = "Put the job down until another time, where that is safe."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument("--insist", action="store_true", help="put it down although it should not rest here")


def run(asked: argparse.Namespace) -> Reply[Entered]:
    """Put it down; refused, with the reason, where the job may not rest."""
    with a_job(asked) as session:
        answer = session.rest(force=asked.insist)
        care = care_section(session.care_at_rest())
        told = page(care, summary(session.standing(), session.first_to_measure(), Shown(session.system)))
        return answered(session, [answer], set_page(told))
