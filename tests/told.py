"""What the coach tells of a job, as text, for tests of what it works out."""

from __future__ import annotations

from coach.bench.session import Session
from coach.telling.page import Line
from coach.telling.summary import summary


def summary_of(session: Session) -> list[str]:
    """The lines that are told when a job is resumed."""
    told = summary(session.standing(), session.first_to_measure(), session.shown)
    return [line.words for line in told.body if isinstance(line, Line)]
