"""`coach resume`: a job that rested, or was set aside, goes on."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Reply
from coach.log.status import JobStatus
from coach.telling.summary import summary
from coach.telling.writing import Shown

SUMMARY = "Resume a job that rests or was set aside, and hear where it stands."
TAKES = (JOB,)


def run(asked: Asked) -> Reply[Entered]:
    """Resume it, and tell where it stands, what was noted and what to measure first."""
    with a_job(asked) as session:
        aside = session.standing().state is JobStatus.SET_ASIDE
        answer = session.bring_back() if aside else session.resume()
        resumed = summary(session.standing(), session.first_to_measure(), Shown(session.system))
        return answered(asked, session, [answer], [resumed])
