"""`coach take`: one of the ways back is taken."""

from __future__ import annotations

from coach.cli.entering import JOB, entering
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
    Take("--at", "when it was taken, in the step in hand: a time of today, or a day and a time", "TIME"),
)
run = entering(lambda session, asked: session.take(asked.way, asked.at or ""))
