"""`coach jobs`: every job in the log."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import look_for_log, shop_path
from coach.cli.page import table
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.errors import marked
from coach.quantities.takes import flag
from coach.telling.clock import moment
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.glance import JobSummary

SUMMARY = "List the jobs, the latest touched first."
_NONE = "There is no job yet: `coach recipes` lists what there is to make, `coach begin RECIPE` begins it."
_MOST = 50
TAKES = (flag("--all", f"list them all, not the newest {_MOST} alone"),)


class Jobs(NamedTuple):
    """The jobs of the log, the latest touched first."""

    jobs: tuple[JobSummary, ...]


def run(asked: Asked) -> Reply[Jobs]:
    """List the jobs, in JSON all of them; bad news when one of those listed is in trouble."""
    path = shop_path(asked)
    found: tuple[JobSummary, ...] = ()
    count = 0
    look_for_log(path)
    if os.path.lexists(path):
        from coach.cli.remembering import jobs_at_a_glance, latest_jobs

        if asked.all or asked.json:
            found = jobs_at_a_glance(asked, path)
            count = len(found)
        else:
            found, count = latest_jobs(asked, path, _MOST)
    lines = table([_row(job, Shown(asked.units or "mm")) for job in found], indent="") or [_NONE]
    if left := count - len(found):
        lines += ["", f"{left} more: `coach jobs --all` lists them too."]
    return reply(lines, Jobs(tuple(found)), bad_news=any(job.trouble for job in found))


def _row(job: JobSummary, shown: Shown) -> tuple[str, str, str, str]:
    place = f"step {job.step} of {job.steps}" if job.steps else ""
    told = write(job.trouble, shown) or f"{job.step_title or job.title} ({moment(job.worked_at)})"
    return marked(job.job), job.state, place, told
