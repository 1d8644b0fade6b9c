"""Marks on a bar that were read once more: the later one is the one that is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.ledger.course import AmendmentMark, Mark, Outcome, ReadingMark
from coach.operations.measures import MARK
from coach.quantities import Limits


def marks_made_anew(marks: Sequence[Mark], outcomes: Sequence[Outcome]) -> Mapping[int, int]:
    """The entries of marks that were made anew or read once more, each with the last entry of that mark.

    A mark is made or read cold, and nothing moves it but a heat or a way back. So what was read of it before
    says nothing of the metal, once a later reading of it is believed.
    """
    believed = {one.mark.entry for one in outcomes if not one.questioned}
    found: dict[int, int] = {}
    since: dict[str, list[int]] = {}
    for mark in marks:
        if not isinstance(mark, ReadingMark):
            since.clear()
        elif mark.reading.dimension == MARK and mark.entry in believed:
            before = since.setdefault(mark.reading.zone, [])
            found.update(dict.fromkeys(before, mark.entry))
            before.append(mark.entry)
    return found


def marked_there(limits: Limits, zone: str, marks: Sequence[Mark]) -> Limits:
    """Where the mark at the end of a zone is wanted, once a way back taken among `marks` has moved it."""
    for mark in reversed(marks):
        for one in mark.amendment.regained if isinstance(mark, AmendmentMark) else ():
            if (one.zone, one.dimension) == (zone, MARK):
                return limits.moved(one.size_mm - limits.nominal)
    return limits
