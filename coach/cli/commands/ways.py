"""`coach ways`: what can be done to come back onto plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Reply, reply
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.ledger.remedies import WayBack

SUMMARY = "List the ways back onto plan, the best first, each with its price."
TAKES = (JOB,)


class WaysBack(NamedTuple):
    """The ways back onto plan, the best first."""

    job: str  # its name
    ways: tuple[WayBack, ...]  # a list of ways back


def run(asked: Asked) -> Reply[WaysBack]:
    """List them; bad news when the job is not on plan."""
    from coach.ledger.verdict import PlanState
    from coach.telling.ways_back import ways_back_page

    with a_job(asked) as session:
        standing, ways, shown = session.standing(), session.ways_back(), Shown(session.system)
    bad = standing.verdict is not PlanState.ON_PLAN or bool(standing.trouble)
    told = ways_back_page(standing, ways, shown)
    return reply(set_page(told), WaysBack(session.job, ways), bad_news=bad)
