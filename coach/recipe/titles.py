"""What a step is called that its recipe gives no title."""

from __future__ import annotations

from collections.abc import Sequence

from coach.forms import listed
from coach.operations import Operation
from coach.operations.does import Scope
from coach.recipe.progress import Progress, ZoneSoFar


def title_of(
    todo: Operation,
    zones: Sequence[ZoneSoFar],
    together: Sequence[str],
    laid: ZoneSoFar | None,
    parts: Sequence[ZoneSoFar],
    progress: Progress,
) -> str:
    """The operation and what it is done to: zones by their names, all of a piece by the piece's."""
    name = todo.NAME[0].upper() + todo.NAME[1:]
    if parts:
        return f"{name} the {zones[0].zone} into {listed([part.zone for part in parts])}"
    if not zones:
        return name
    if laid is not None:
        return f"{name} the {laid.zone} on the {zones[0].zone}"
    named = {zones[0].zone, *together}
    there = {one.zone for one in progress.zones.values() if one.is_there and one.piece == zones[0].piece}
    if todo.SCOPE is Scope.PIECE or (together and named == there):
        return f"{name} the {zones[0].piece}"
    return f"{name} the {listed([zones[0].zone, *together])}"
