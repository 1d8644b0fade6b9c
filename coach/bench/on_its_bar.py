"""A mark lies on its own length of its bar: one beyond the bar's end, or in another piece, is not entered."""

from __future__ import annotations

from typing import Final

from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.forms import label
from coach.ledger.wanting import begins_on_bar_mm
from coach.log.kinds.reading import Reading
from coach.operations import Does
from coach.operations.measures import CENTRE, MARK
from coach.quantities import mm
from coach.recipe.model import Recipe

_BEYOND: Final = (
    "{} cannot be {:=}: the bar of the {} is {:=} long. Measure from its end; or, where it is longer, change "
    "the bar"
)
_INSIDE_ANOTHER: Final = (
    "{} cannot be {:=}: {} begins at {:=}, and what is before that is another piece. Measure from the end of "
    "the bar, as for the others."
)


def refuse_off_its_bar(state: JobState, read: Reading) -> None:
    """Raises EntryFault: a mark, or the middle of a hole, is beyond the bar, or lies in the piece before."""
    _refuse_beyond_bar(state.plan.as_written, read)
    _refuse_inside_another(state, read)


def _refuse_inside_another(state: JobState, read: Reading) -> None:
    """Of several that are marked out on one bar each begins where those before it end.

    One that was marked out before is marked anew wherever the smith will, as from the other end of the bar.
    """
    recipe, now = state.plan.as_written, state.now
    if read.dimension not in (MARK, CENTRE) or read.zone not in recipe.drawing or not recipe.marks_in_row:
        return
    piece = recipe.piece_of(read.zone)
    marks = [
        step.number for step in recipe.steps if step.does(Does.MARKS_OUT) and {*step.zones} & {*piece.zones}
    ]
    if now is None or marks != [read.step]:
        return
    begins_mm = begins_on_bar_mm(state.plan, now, piece.name)
    if read.size <= begins_mm:
        name = label(read.zone, read.dimension)
        raise EntryFault(_INSIDE_ANOTHER, name, mm(read.size), piece.name, mm(round(begins_mm)))


def _refuse_beyond_bar(recipe: Recipe, read: Reading) -> None:
    """Raises EntryFault: a mark, or the middle of a hole along the bar, lies beyond the bar's other end.

    Where the recipe does not say how long the bar is, no mark is.
    """
    if read.dimension not in (MARK, CENTRE) or read.zone not in recipe.drawing:
        return
    piece = recipe.drawing[read.zone].piece
    long_mm = recipe.pieces[piece].stock.length_mm
    if long_mm is not None and read.size > long_mm:
        raise EntryFault(f"{_BEYOND}.", label(read.zone, read.dimension), mm(read.size), piece, mm(long_mm))
