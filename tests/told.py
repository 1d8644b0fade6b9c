"""What the coach tells of a job, as text, for tests of what it works out."""

from __future__ import annotations

from coach.bench.answer import Answer, Unsettled
from coach.bench.history import Logged
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.telling.entered import answer_text, unsettled_text
from coach.telling.page import Line
from coach.telling.rest import care_section
from coach.telling.summary import summary
from coach.telling.why import reason_text
from coach.telling.words import write
from coach.telling.writing import Shown


def summary_of(session: Session) -> list[str]:
    """The lines that are told when a job is resumed."""
    told = summary(session.standing(), session.first_to_measure(), Shown(session.system))
    lines = (line for line in told.body if isinstance(line, Line))
    return [f"{line.label}: {line.words}" if line.label else line.words for line in lines]


def why(standing: Standing) -> str:
    """Why a job stands as it does."""
    return reason_text(standing.reason, Shown())


def care_text(session: Session) -> str:
    """What is to be taken care of before a job is left."""
    return " ".join(
        line.words for line in care_section(session.care_at_rest()).body if isinstance(line, Line)
    )


def said(answer: Answer, shown: Shown | None = None) -> str:
    """What the coach says to an entry."""
    return answer_text(answer, shown or Shown())


def entry_text(entry: Logged, shown: Shown | None = None) -> str:
    """What an entry of the log says."""
    return write(entry.words, shown or Shown())


def worries(unsettled: Unsettled) -> str:
    """What is not as it should be."""
    return unsettled_text(unsettled, Shown())
