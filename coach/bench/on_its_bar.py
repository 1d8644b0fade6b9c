"""A mark lies on its bar: what is typed for one beyond the bar's end is a slip, and is not entered."""

from __future__ import annotations

from typing import Final

from coach.bench.entering import EntryFault
from coach.forms import label
from coach.log.kinds.reading import Reading
from coach.operations.measures import CENTRE, MARK
from coach.quantities import mm
from coach.recipe.model import Recipe

_BEYOND: Final = (
    "{} cannot be {:=}: the bar of the {} is {:=} long. Measure from its end; or, where it is longer, change "
    "the bar"
)


def refuse_beyond_bar(recipe: Recipe, read: Reading) -> None:
    """Raises EntryFault: a mark, or the middle of a hole along the bar, lies beyond the bar's other end.

    Where the recipe does not say how long the bar is, no mark is.
    """
    if read.dimension not in (MARK, CENTRE) or read.zone not in recipe.drawing:
        return
    piece = recipe.drawing[read.zone].piece
    long_mm = recipe.pieces[piece].stock.length_mm
    if long_mm is not None and read.size > long_mm:
        raise EntryFault(f"{_BEYOND}.", label(read.zone, read.dimension), mm(read.size), piece, mm(long_mm))
