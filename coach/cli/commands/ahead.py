"""`coach ahead`: how long the rest of a job takes, how far it comes today; of all jobs, which is next."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB
from coach.cli.opening import a_job, open_shop, shop_path
from coach.cli.page import set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import Take

if TYPE_CHECKING:
    from coach.bench.across import JobAhead
    from coach.bench.time_ahead import TimeAhead

SUMMARY = (
    "Tell how long the rest of a job takes at your pace, how far it comes by an hour, where it may rest; "
    "without a job, which of those in hand to take on next."
)
TAKES = (
    JOB._replace(needed=False, help=f"{JOB.help}; without it, every job in hand"),
    Take("--by", "an hour of today, such as 17:00", "HOUR"),
)


class JobsAhead(NamedTuple):
    """The jobs in hand, that first which is to be taken on next."""

    jobs: tuple[JobAhead, ...]


def run(asked: Asked) -> Reply[TimeAhead | JobsAhead]:
    """Tell what is ahead."""
    from coach.telling.writing import Shown

    if asked.job is None:
        return _of_all(asked)
    from coach.telling.time_ahead import time_ahead_page

    with a_job(asked) as session:
        ahead = session.ahead(asked.by or "")
        return reply(set_page(time_ahead_page(ahead, Shown(session.system))), ahead)


def _of_all(asked: Asked) -> Reply[JobsAhead]:
    from coach.bench.across import across
    from coach.telling.across import across_page
    from coach.telling.writing import Shown

    if not shop_path(asked).exists():
        raise Refused("No job was begun yet: `coach begin RECIPE` begins one.")
    with open_shop(asked) as shop:
        found = across(shop.jobs(), shop.open, asked.by or "")
    return reply(set_page(across_page(found, Shown(asked.units or "mm"))), JobsAhead(found))
