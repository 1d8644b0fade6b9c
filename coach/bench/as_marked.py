"""A job's plan as it is told once its bars are marked: the marks lie where they were made."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from coach.ledger.course import Mark
from coach.ledger.made_anew import marks_moved_to_mm
from coach.ledger.plan import BarOfZone, MarkOnBar, OneOfRow, Plan, PlannedPiece, Row
from coach.operations import Does
from coach.quantities import mm
from coach.recipe.model import Step
from coach.recipe.one_bar import across_others

if TYPE_CHECKING:
    from coach.bench.job_state import JobState
    from coach.bench.planned import Planned


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


def with_marks_moved(plan: Plan, step: Step, marks: Iterable[Mark]) -> Plan:
    """A plan with the marks on its bars where ways back have put them.

    Args:
        plan: that the marks are made by.
        step: that the ways back were taken in: once it is behind, a piece is measured from its own end.
        marks: of the step, the ways back among them.
    """
    across = across_others(plan.recipe, step)
    moved_to = marks_moved_to_mm(marks)
    by: dict[str, float] = {}  # how much further along each mark lies, by the zone that it ends
    for piece in plan.pieces.values():
        own_mm = 0.0 if piece.piece in across else piece.begins.value
        for mark in piece.marks:
            if mark.ends in moved_to:
                by[mark.ends] = moved_to[mark.ends] + own_mm - mark.at.value
    if not by:
        return plan
    begins: dict[str, float] = {}  # the same of where each piece of a row begins
    for row in plan.rows:
        for one, following in zip(row.pieces, row.pieces[1:], strict=False):
            begins[following.piece] = by.get(_last_zone(plan, one.piece), 0.0)
    pieces = {name: _piece_moved(one, begins.get(name, 0.0), by) for name, one in plan.pieces.items()}
    return plan._replace(pieces=pieces, rows=tuple(_row_moved(plan, row, by) for row in plan.rows))


def _last_zone(plan: Plan, piece: str) -> str:
    return plan.recipe.pieces[piece].zones[-1]


def _piece_moved(piece: PlannedPiece, begins_mm: float, by_mm: Mapping[str, float]) -> PlannedPiece:
    marks = tuple(_mark_moved(one, by_mm) for one in piece.marks)
    ends_mm = by_mm.get(piece.marks[-1].ends, 0.0) if piece.marks else 0.0
    longer_mm = ends_mm - begins_mm
    share = 1.0 + longer_mm / piece.length.value
    left = piece.left_over
    return piece._replace(
        marks=marks,
        zones=tuple(_zones_moved(piece, begins_mm, by_mm)),
        begins=mm(piece.begins.value + begins_mm, piece.begins.doubt),
        length=mm(piece.length.value + longer_mm, piece.length.doubt),
        mass=piece.mass._replace(value=piece.mass.value * share),
        left_over=None if left is None else left._replace(value=left.value - longer_mm),
    )


def _mark_moved(mark: MarkOnBar, by_mm: Mapping[str, float]) -> MarkOnBar:
    return mark._replace(at=mm(mark.at.value + by_mm.get(mark.ends, 0.0), mark.at.doubt))


def _zones_moved(piece: PlannedPiece, begins_mm: float, by_mm: Mapping[str, float]) -> Sequence[BarOfZone]:
    """Each as long as the marks at its ends leave it."""
    zones = []
    for one in piece.zones:
        ends_mm = by_mm.get(one.zone, 0.0)
        longer_mm, begins_mm = ends_mm - begins_mm, ends_mm
        share = 1.0 + longer_mm / one.length.value
        length = one.length._replace(value=one.length.value + longer_mm)
        zones.append(
            one._replace(length=length, volume=one.volume._replace(value=one.volume.value * share))
            if longer_mm
            else one
        )
    return zones


def _row_moved(plan: Plan, row: Row, by_mm: Mapping[str, float]) -> Row:
    ends = {one.piece: by_mm.get(_last_zone(plan, one.piece), 0.0) for one in row.pieces}
    longer_mm = ends[row.pieces[-1].piece]
    left = row.left_over
    return row._replace(
        pieces=tuple(_end_moved(one, ends[one.piece]) for one in row.pieces),
        length=mm(row.length.value + longer_mm, row.length.doubt),
        left_over=None if left is None else left._replace(value=left.value - longer_mm),
    )


def _end_moved(one: OneOfRow, by_mm: float) -> OneOfRow:
    return one._replace(ends=mm(one.ends.value + by_mm, one.ends.doubt))


def marked_so_far(state: JobState) -> Mapping[str, Plan]:
    """The plan that each piece was marked by, and those by which one is marked now whose marks were moved."""
    step = state.step
    if step is None or not step.does(Does.MARKS_OUT):
        return state.marked_by
    moved = with_marks_moved(state.plan, step, state.marks)
    pieces = (name for name, one in moved.pieces.items() if one != state.plan.pieces[name])
    return {**state.marked_by, **dict.fromkeys(pieces, moved)}
