"""`coach where`: where a job stands."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.entering import job_argument
from coach.cli.remembering import told_again
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.bench.standing import Standing

SUMMARY = "Tell where a job stands: the step, what to measure, the spare, the verdict, what comes next."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[Standing]:
    """Tell where the job stands; bad news when it stands badly."""
    return told_again(asked, "where", _told)


def _told(session: Session) -> Reply[Standing]:
    from coach.cli.telling import is_bad_news, standing_lines

    standing = session.standing()
    return reply(standing_lines(standing), standing, bad_news=is_bad_news(standing))
