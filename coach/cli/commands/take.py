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
)
run = entering(lambda session, asked: session.take(asked.way))
