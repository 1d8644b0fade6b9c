"""A spoiled piece that is the end of its bar still, with others behind it: it comes off before those."""

from __future__ import annotations

from collections.abc import Sequence

from coach.operations import Does
from coach.recipe.model import Recipe, Step
from coach.recipe.one_bar import pieces_by_bar


def behind_on_its_bar(recipe: Recipe, piece: str, done: Sequence[Step]) -> tuple[str, ...]:
    """The pieces that lie behind one on the bar it is marked out on; none where it is cut off, or never was.

    Args:
        recipe: the job's.
        piece: that is spoiled.
        done: the steps done by then.
    """
    names = next((names for names in pieces_by_bar(recipe) if piece in names), [])
    if not recipe.marks_in_row or piece not in names or not _lies_on_bar(recipe, piece, done):
        return ()
    after = names[names.index(piece) + 1 :]
    return tuple(one for one in after if not recipe.pieces[one].given_up and _lies_on_bar(recipe, one, done))


def _lies_on_bar(recipe: Recipe, piece: str, done: Sequence[Step]) -> bool:
    """Whether it is marked out, and was not cut off since."""
    zones, lies = recipe.pieces[piece].zones, False
    for step in done:
        if step.does(Does.MARKS_OUT) and {*step.zones} & {*zones}:
            lies = True
        elif step.does(Does.CUTS_FREE) and zones[-1] in step.zones:
            lies = False
    return lies
