"""`coach where`: where a job stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB
from coach.cli.remembering import told_again
from coach.cli.reply import Asked, Reply, reply

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.bench.standing import Standing

SUMMARY = "Tell where a job stands: the step, what to measure, the spare, the verdict, what comes next."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[Standing]:
    """Tell where the job stands; bad news when it stands badly."""
    return told_again(asked, "where", where_it_stands)


def where_it_stands(session: Session) -> Reply[Standing]:
    """Everything about a job; bad news when it stands badly."""
    from coach.cli.page import set_page
    from coach.telling.standing import standing_page
    from coach.telling.writing import Shown

    standing = session.standing()
    told = standing_page(standing, Shown(session.system))
    return reply(set_page(told), standing, bad_news=standing.is_bad_news)
