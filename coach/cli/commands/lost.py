"""`coach lost`: metal was lost that no step takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import Take, flag
from coach.telling.page import page
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.losing import LossAsked, MetalGone

SUMMARY = "Show what a loss of metal does to a job, such as an end that burnt; with --take, enter it."
TAKES = (
    JOB,
    Take(
        "loss",
        "a zone and how much of it: a length of its end, a weight, or a corner, how far along end and side, "
        "such as blade=12, blade=30g or 'blade=corner 12 x 8'",
        "ZONE=AMOUNT",
        needed=True,
    ),
    Take(
        "--by",
        "what took it: burnt, cracked, cold shut, cut wrong, ground away or something else",
        "CAUSE",
        usual="not said how",
    ),
    Take("--at", "when that was, in the step in hand: a time of today, or a day and a time", "TIME"),
    flag("--start", "of a zone with two free ends: the one that the bar's marks begin at"),
    flag("--take", "enter it"),
)


class LossForJob(NamedTuple):
    """What a loss would do to a job."""

    job: str  # its name
    loss: MetalGone


def run(asked: Asked) -> Reply[LossForJob | Entered]:
    """Reckon it, and enter it where that is asked; bad news where the job is off plan with it."""
    from coach.ledger.verdict import PlanState
    from coach.telling.lost import loss_section
    from coach.telling.page import section
    from coach.telling.standing import bearing
    from coach.telling.step import hand_lines

    lost = _asked(asked)
    with a_job(asked) as session:
        if asked.take:
            answer = session.lose(lost, asked.at or "")
            standing, shown = session.standing(), Shown(session.system)
            then = (one for one in standing.by_hand if one.entry == answer.entry)
            stands = [section("", hand_lines(then, shown)), bearing(standing, shown)]
            return answered(asked, session, [answer], stands)
        gone = session.loss(lost, asked.at or "")
        told = set_page(page(loss_section(gone, Shown(session.system))))
        bad = gone.after.verdict is PlanState.OFF_PLAN
        return reply(told, LossForJob(session.job, gone), bad_news=bad)


def _asked(asked: Asked) -> LossAsked:
    from coach.bench.losing import LossAsked
    from coach.log.kinds.metal_lost import CAUSES

    zone, equals, amount = asked.loss.partition("=")
    if not (equals and zone.strip() and amount.strip()):
        raise Refused(
            "{} is no loss: write ZONE=AMOUNT, such as blade=12 or blade=30g.", repr(asked.loss[:40])
        )
    much, _, cause = amount.strip().partition(" ")
    if cause.strip() in CAUSES:
        raise Refused(
            "What took it goes with --by: {}={} --by {}, and --take enters it.",
            *(zone.strip(), much, f"'{cause.strip()}'" if " " in cause.strip() else cause.strip()),
        )
    return LossAsked(zone, amount, asked.by, asked.start)
