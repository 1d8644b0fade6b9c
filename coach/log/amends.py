"""What an entry holds by which a job goes on otherwise, as the ledger writes and reads it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from coach.log.body import Body
from coach.log.limits import LONGEST_LINE, kept_text, saying, step_number, written
from coach.log.status import JobStatus
from coach.quantities.words import Words

if TYPE_CHECKING:
    from coach.ledger.amendment import Amendment


def _not_one(value: object) -> str | None:
    from coach.ledger.amendment import Amendment

    return None if isinstance(value, Amendment) else kept_text(value)


def _frozen(value: Any) -> object:
    from coach.ledger.amendment_kept import frozen

    return frozen(value)


def _thawed(value: object) -> object:
    from coach.ledger.amendment_kept import thawed

    return thawed(value)


class Amends(Body):
    """An entry after which the metal lies otherwise, or another plan is followed."""

    IS_WEIGHED = True
    AFTER = JobStatus.UNDER_WAY

    title: Words = saying(LONGEST_LINE)
    changes: Words = saying(4 * LONGEST_LINE)
    step: int = step_number(least=0)  # in hand then; 0 when every step was done
    amendment: Amendment = written("as this program writes it", _not_one, _frozen, _thawed)
