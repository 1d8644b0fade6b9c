"""The number that a step has now which had another one when an entry was made."""

from __future__ import annotations

from collections.abc import Iterable

from coach.log.amends import Amends
from coach.log.entries import Entry


def numbered_now(since: Iterable[Entry], step: int) -> int:
    """The number now of the step that was `step` before these entries; 0 stays 0, when every step was done.

    `since` are those that count, in their order. Each step that a way back put in before it moves it on.
    """
    for entry in since:
        if step and isinstance(entry.body, Amends):
            step += sum(again.after < step for again in entry.body.amendment.again)
    return step
