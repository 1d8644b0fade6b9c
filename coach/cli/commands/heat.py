"""`coach heat`: one trip to the fire."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.entering import JOB, Entered, answered, number_of
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Refused, Reply
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
    Take(
        "--blows",
        "how many blows were struck in it, where you have counted them and mark it once it is over",
        "N",
        number_of("a number of blows", "40"),
    ),
)


def run(asked: Asked) -> Reply[Entered]:
    """Mark it, and enter its blows where they are said."""
    with a_job(asked) as session:
        if asked.blows is None:
            return answered(asked, session, [_marked(session, asked)])
        with session.together():
            answers = [_marked(session, asked)]
            answers.append(session.count_blows(asked.blows, of=answers[0].entry))
        return answered(asked, session, answers)


def _marked(session: Session, asked: Asked) -> Answer:
    earlier = asked.step is not None or asked.at
    if asked.fire_out and earlier:
        raise Refused(
            "The fire is out now, or the heat was taken earlier: leave out --fire-out, or the rest."
        )
    if earlier:
        return session.heat_then(asked.step, asked.at or "")
    return session.heat_the_fire_was_out() if asked.fire_out else session.heat()
