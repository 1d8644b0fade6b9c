"""`coach open`: the bench of a job."""

from __future__ import annotations

import argparse

from coach.cli.entering import job_argument
from coach.cli.opening import log_with_jobs, open_shop
from coach.cli.reply import Reply
from coach.cli.screen import need_a_terminal, show

SUMMARY = "Open the bench of a job, the screen that stays open while forging."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[None]:
    """Open the bench where the job was left."""
    need_a_terminal(asked, f"coach where {asked.job}{' --json' if asked.json else ''}")
    with open_shop(asked, log_with_jobs(asked)) as shop:
        return show(shop, asked.job)
