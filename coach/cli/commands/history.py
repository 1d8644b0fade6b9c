"""`coach history`: everything entered for a job."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.remembering import told_again
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import flag
from coach.telling.history import history_page, spare_history
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.history import Logged
    from coach.bench.looking_back import MomentOfSpare
    from coach.bench.session import Session

SUMMARY = "List everything entered for a job, what was struck out included."
TAKES = (
    JOB,
    flag("--spare", "how the spare of each zone has gone from heat to heat instead"),
    flag("--every", "with --spare: after every heat and step of a long job too"),
)


class Entries(NamedTuple):
    """Everything entered for a job."""

    job: str  # its name
    entries: tuple[Logged, ...]


class SpareHistory(NamedTuple):
    """How the spare of a job has gone from heat to heat."""

    job: str  # its name
    spare: tuple[MomentOfSpare, ...]
    left_out: int  # so many moments between those, which `--every` tells too


def run(asked: Asked) -> Reply[Entries | SpareHistory]:
    """List the entries in order, or tell how the spare has gone."""
    if asked.every and not asked.spare:
        raise Refused("--every goes with --spare: without it every entry is listed.")
    if asked.spare:
        what = "spare at every heat" if asked.every else "spare"
        return told_again(asked, what, partial(_spare, every=asked.every))
    with a_job(asked) as session:
        entries = session.history()
    return reply(set_page(history_page(entries, Shown(session.system))), Entries(session.job, entries))


def _spare(session: Session, *, every: bool) -> Reply[SpareHistory]:
    gone = session.spare_gone(every=every)
    return reply(set_page(spare_history(gone, Shown(session.system))), SpareHistory(session.job, *gone[:2]))
