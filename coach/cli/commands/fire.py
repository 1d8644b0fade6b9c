"""`coach fire`: the piece goes back in the fire."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import BLOWS, JOB, Entered, answered, with_blows
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Reply
from coach.quantities.takes import Take

if TYPE_CHECKING:
    from coach.bench.answer import Answer

SUMMARY = "Say that the piece is back in the fire: its soaking begins."
TAKES = (
    JOB,
    Take("--at", "when it went in: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
    BLOWS,
)


def run(asked: Asked) -> Reply[Entered]:
    """Enter it, and the blows of the heat that ends with it where they are said."""
    with a_job(asked) as session:

        def ends() -> Answer:
            return session.fire_then(at=asked.at) if asked.at else session.fire()

        return answered(asked, session, with_blows(session, asked.blows, ends))
