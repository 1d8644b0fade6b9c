"""A job's plan as it is told once its bars are marked: the marks lie where they were made."""

from __future__ import annotations

from collections.abc import Mapping

from coach.bench.planned import Planned
from coach.ledger.plan import Plan, PlannedPiece, Row


def as_marked(planned: Planned, marked_by: Mapping[str, Plan]) -> Planned:
    """The same with each marked piece on its bar as it was marked, whatever has been changed since.

    Args:
        planned: what the plan of the steps ahead asks of its bars.
        marked_by: the plan that each marked piece was marked by.
    """
    pieces = tuple(
        _piece(one, marked_by[one.piece].pieces.get(one.piece)) if one.piece in marked_by else one
        for one in planned.pieces
    )
    return planned._replace(pieces=pieces, rows=tuple(_row(one, marked_by) for one in planned.rows))


def _piece(now: PlannedPiece, then: PlannedPiece | None) -> PlannedPiece:
    """Where its zones are others by now its marks are told by them."""
    if then is None or [one.ends for one in then.marks] != [one.ends for one in now.marks]:
        return now
    # A step that was put in since has moved the number of the one that cuts it off.
    marks = tuple(was._replace(cut_in=one.cut_in) for was, one in zip(then.marks, now.marks, strict=True))
    return then._replace(marks=marks)


def _row(now: Row, marked_by: Mapping[str, Plan]) -> Row:
    names = [one.piece for one in now.pieces]
    if not all(name in marked_by for name in names):
        return now
    rows = (row for row in marked_by[names[-1]].rows if [one.piece for one in row.pieces] == names)
    then = next(rows, None)
    if then is None:
        return now
    pieces = (was._replace(cut_in=one.cut_in) for was, one in zip(then.pieces, now.pieces, strict=True))
    return then._replace(pieces=tuple(pieces))
