"""`coach take`: one of the ways back is taken."""

from __future__ import annotations

from coach.cli.entering import JOB, Entered, enter
from coach.cli.reply import Asked, Reply
from coach.quantities.takes import Take

SUMMARY = "Take a way back; `coach strike` strikes it out again."
TAKES = (
    JOB,
    Take(
        "way",
        "its name as `coach ways` lists it, or as much of it as no other begins with",
        "WAY",
        needed=True,
    ),
)


def run(asked: Asked) -> Reply[Entered]:
    """Take it."""
    return enter(asked, lambda session: session.take(asked.way))
