"""A line that is of no size: a note, a thing to put right, or how many blows there were (`40 blows`)."""

from __future__ import annotations

import re
from typing import Final

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.quantities import Refusal
from coach.screens.widgets.entry_box import Mode

_BLOWS: Final = re.compile(r"(?:(?P<first>\d+)\s*blows?|blows?\s*=?\s*(?P<last>\d+))", re.IGNORECASE)
#: A longer number is no count (our choice).
_LONGEST_COUNT: Final = 9


def says_blows_alone(typed: str) -> bool:
    """Whether a line says how many blows there were, and nothing of a size.

    >>> says_blows_alone("40 blows"), says_blows_alone("Blows 38"), says_blows_alone("40")
    (True, True, False)
    """
    return _BLOWS.fullmatch(typed.strip()) is not None


def put_down(session: Session, text: str, mode: Mode) -> Answer:
    """Enter such a line; raises Refusal."""
    if mode == "size":
        return session.count_blows(blows_in(text))
    return session.note(text) if mode == "note" else session.to_right(text)


def blows_in(typed: str) -> int:
    """How many blows such a line says; raises Refusal for a number that is no count."""
    found = _BLOWS.fullmatch(typed.strip())
    assert found is not None
    return count_read(found["first"] or found["last"])


def count_read(digits: str) -> int:
    """A count of blows; raises Refusal where it is longer than any."""
    if len(digits) > _LONGEST_COUNT:
        raise Refusal("Nobody strikes {} blows in a heat: type how many, such as 40 blows.", digits[:20])
    return int(digits)
