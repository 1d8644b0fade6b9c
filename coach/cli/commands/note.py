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
    Take("--zone", "of which zone it is to be put right", "ZONE"),
)


def run(asked: Asked) -> Reply[Entered]:
    """Write it down."""
    if asked.zone is not None and not asked.right:
        raise Refused("--zone goes with --right: a note belongs to no zone.")
    with a_job(asked) as session:
        said = session.to_right(asked.text, asked.zone) if asked.right else session.note(asked.text)
        return answered(asked, session, [said])
