"""The rows of a step's sizes as the box goes by them: each keeps its number till the step ends."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.ledger.verdict import Reason


def with_gone(before: Sequence[Check], now: Sequence[Check]) -> tuple[Check, ...]:
    """The sizes of the step now, and behind them those that stood there and are asked for no more."""
    names = {one.name for one in now}
    return (*now, *(one for one in before if one.name not in names))


def asked_unnamed(session: Session, checks: Sequence[Check]) -> list[Check]:
    """The sizes that a number without a name may go to, where none was chosen by hand.

    What the verdict hangs on is asked for besides the step's own sizes; it comes and goes with the verdict.
    """
    standing = session.standing()
    reason = standing.reason.measure if isinstance(standing.reason, Reason) else ""
    own = session.recipe.steps[standing.step.number - 1].checks if standing.step is not None else ()
    return [one for one in checks if one.reading is not None or one.name != reason or one.name in own]


def wanting(checks: Sequence[Check], again: str) -> str:
    """The size to be read first: what is questioned, to be read once more, unread, not good, and last
    what only a tester reads.

    `again` is the size that was spoken of last, where it is to be measured again: a key that answers what was
    said must find it in the box. "" where all are good.
    """
    questioned = [one for one in checks if one.is_questioned]
    found = (
        [one for one in questioned if one.name == again]
        or questioned
        or [one for one in checks if one.name == again]
        or [one for one in checks if one.is_open]
        or [one for one in checks if not one.is_settled]
        or [one for one in checks if one.may_stay_unread]
    )
    return found[0].name if found else ""
