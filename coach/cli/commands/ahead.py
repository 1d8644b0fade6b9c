"""`coach ahead`: how long the rest of a job takes, how far it comes today, and where it may rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.takes import Take

if TYPE_CHECKING:
    from coach.bench.time_ahead import TimeAhead

SUMMARY = (
    "Tell how long the rest of a job takes at your pace, how far it comes by an hour, where it may rest."
)
TAKES = (JOB, Take("--by", "an hour of today, such as 17:00", "HOUR"))


def run(asked: Asked) -> Reply[TimeAhead]:
    """Tell what is ahead."""
    from coach.telling.time_ahead import time_ahead_page
    from coach.telling.writing import Shown

    with a_job(asked) as session:
        ahead = session.ahead(asked.by or "")
        return reply(set_page(time_ahead_page(ahead, Shown(session.system))), ahead)
