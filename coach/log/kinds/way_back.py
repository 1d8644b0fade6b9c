"""A way back onto plan was taken: from here on the job follows another plan."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from coach.log.body import Body
from coach.log.limits import LONGEST_LINE, LONGEST_NAME, Limit, kept_text, line, saying, step_number
from coach.log.status import JobStatus
from coach.quantities.words import Words

if TYPE_CHECKING:
    from coach.ledger.amendment import Amendment


def _not_one(value: object) -> str | None:
    from coach.ledger.amendment import Amendment

    return None if isinstance(value, Amendment) else kept_text(value)


def _frozen(value: Any) -> object:
    from coach.ledger.amendment import frozen

    return frozen(value)


def _thawed(value: object) -> object:
    from coach.ledger.amendment import thawed

    return thawed(value)


def _amendment() -> Any:
    """What changes, as `coach.ledger.amendment` writes and reads it: read but once, and kept as it is."""
    return Limit("as this program writes it", _not_one, _frozen, _thawed)


class WayBackTaken(Body):
    """A way back, with all that it changes."""

    CALLED = "a way back"
    SAYS = ("way back: {}", "title")
    IS_WEIGHED = True
    AFTER = JobStatus.UNDER_WAY

    name: str = line(LONGEST_NAME)
    title: Words = saying(LONGEST_LINE)
    changes: Words = saying(4 * LONGEST_LINE)
    step: int = step_number(least=0)  # in hand then; 0 when every step was done
    amendment: Amendment = _amendment()
