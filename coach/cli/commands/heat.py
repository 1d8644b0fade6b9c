"""`coach heat`: one trip to the fire."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB, entering, number_of
from coach.cli.reply import Asked, Refused
from coach.quantities.takes import Take, flag

if TYPE_CHECKING:
    from coach.bench.answer import Answer
    from coach.bench.session import Session

SUMMARY = "Mark one heat of the step in hand: out of the fire."
TAKES = (
    JOB,
    flag("--fire-out", "the fire was out meanwhile: its going in counts no more"),
    Take("--step", "the step it was taken at, when that was an earlier one", "N", number_of("a step", "12")),
    Take("--at", "when it was taken: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
)


def _marked(session: Session, asked: Asked) -> Answer:
    earlier = asked.step is not None or asked.at
    if asked.fire_out and earlier:
        raise Refused(
            "The fire is out now, or the heat was taken earlier: leave out --fire-out, or the rest."
        )
    if earlier:
        return session.heat_then(asked.step, asked.at or "")
    return session.heat_the_fire_was_out() if asked.fire_out else session.heat()


run = entering(_marked)
