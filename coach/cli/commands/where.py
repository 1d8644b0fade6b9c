"""`coach where`: where a job stands."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.entering import job_argument
from coach.cli.opening import a_job
from coach.cli.reply import Reply, reply
from coach.cli.telling import is_bad_news, standing_lines

if TYPE_CHECKING:
    from coach.bench.standing import Standing

SUMMARY = "Tell where a job stands: the step, what to measure, the spare, the verdict, what comes next."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Standing]:
    """Tell where the job stands; bad news when it stands badly."""
    with a_job(asked) as session:
        standing = session.standing()
    return reply(standing_lines(standing), standing, bad_news=is_bad_news(standing))
