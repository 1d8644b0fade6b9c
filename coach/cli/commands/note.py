"""`coach note`: something to be remembered with the job."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take, Typed, flag

SUMMARY = "Write something down with the job."
TAKES = (
    JOB,
    Take("text", "what is to be remembered", "TEXT", typed=Typed.RUN_ON, needed=True),
    flag("--right", "put it on the list of things to put right, `coach right`"),
    Take("--at", "when it was noted: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
    Take("--zone", "of which zone it is to be put right", "ZONE"),
)


def run(asked: Asked) -> Reply[Entered]:
    """Write it down."""
    if asked.zone is not None and not asked.right:
        raise Refused("--zone goes with --right: a note belongs to no zone.")
    if asked.at and asked.right:
        raise Refused("--at goes without --right: what is to be put right is so from now on.")
    with a_job(asked) as session:
        if asked.right:
            said = session.to_right(asked.text, asked.zone)
        else:
            said = session.note(asked.text, asked.at or "")
        return answered(asked, session, [said])
