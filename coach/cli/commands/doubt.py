"""`coach doubt`: what the doubt of a job comes from, and what to measure first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Reply, reply

if TYPE_CHECKING:
    from coach.bench.tells_most import DoubtOfJob

SUMMARY = "Tell what the doubt of a job comes from, and which size would tell most if it were measured now."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[DoubtOfJob]:
    """Tell what is in doubt."""
    from coach.telling.doubt import doubt_page
    from coach.telling.writing import Shown

    with a_job(asked) as session:
        doubt = session.doubt()
        return reply(set_page(doubt_page(doubt, Shown(session.system))), doubt)
