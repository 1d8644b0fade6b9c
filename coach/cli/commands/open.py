"""`coach open`: the bench of a job."""

from __future__ import annotations

from contextlib import suppress
from functools import partial

from coach.cli.entering import JOB
from coach.cli.opening import log_with_jobs, shop_and_job
from coach.cli.reply import Asked, Reply
from coach.cli.screen import need_a_terminal, show_job
from coach.log.errors import LogError
from coach.log.newest import newest_of

SUMMARY = "Open the bench of a job, the screen that stays open while forging."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[None]:
    """Open the bench where the job was left."""
    need_a_terminal(asked, f"coach where {asked.job}{' --json' if asked.json else ''}")
    newest = None
    with suppress(LogError):  # opening the log says what is wrong with it
        newest = newest_of(log_with_jobs(asked), asked.job)
    return show_job(asked, newest, partial(shop_and_job, asked))
