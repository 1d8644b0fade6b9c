"""`coach rest`: the job is put down until another time."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Reply
from coach.quantities.takes import flag
from coach.telling.rest import care_section
from coach.telling.summary import summary
from coach.telling.writing import Shown

SUMMARY = "Put the job down until another time, where that is safe."
TAKES = (JOB, flag("--insist", "put it down although it should not rest here"))


def run(asked: Asked) -> Reply[Entered]:
    """Put it down; refused, with the reason, where the job may not rest."""
    with a_job(asked) as session:
        answer = session.rest(force=asked.insist)
        care = care_section(session.care_at_rest())
        left = summary(session.standing(), session.first_to_measure(), Shown(session.system))
        return answered(asked, session, [answer], [care, left])
