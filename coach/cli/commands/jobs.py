"""`coach jobs`: every job in the shop's log."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import open_shop, shop_path
from coach.cli.page import moment, table
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.bench.standing import JobSummary

SUMMARY = "List the jobs, the latest touched first."
_NONE = "There is no job yet: `coach recipes` lists what there is to make, `coach begin RECIPE` begins it."


class Jobs(NamedTuple):
    """The jobs of the log, the latest touched first."""

    jobs: tuple[JobSummary, ...]


def arguments(parser: argparse.ArgumentParser) -> None:
    """Nothing follows the verb."""


def run(asked: argparse.Namespace) -> Reply[Jobs]:
    """List the jobs; bad news when one of them is in trouble."""
    path = shop_path(asked)
    found: tuple[JobSummary, ...] = ()
    if path.exists():
        with open_shop(asked, path) as shop:
            found = shop.jobs()
    lines = table([_row(job) for job in found], indent="") or [_NONE]
    return reply(lines, Jobs(tuple(found)), bad_news=any(job.trouble for job in found))


def _row(job: JobSummary) -> tuple[str, str, str, str]:
    place = f"step {job.step} of {job.steps}" if job.steps else ""
    return job.job, job.state, place, job.trouble or f"{job.step_title or job.title} ({moment(job.last_at)})"
