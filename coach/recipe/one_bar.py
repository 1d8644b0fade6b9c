"""Several pieces of one bar: in what order they are cut off it, and which of them lies inside it still."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from coach.operations import operation
from coach.operations.does import Does
from coach.operations.inspect import Inspect
from coach.quantities import Words, say
from coach.recipe.model import Recipe, Step

_TWO = 2


class Inside(NamedTuple):
    """An end that is to be worked while it lies inside the bar."""

    step: Step
    zone: str
    before: str  # the piece that lies before it on the bar
    cut_in: int  # the step that cuts that off

    def words(self) -> Words:
        """Why that cannot be, and what can."""
        return say(
            "the {} lies inside the bar until step {} cuts {} off: cut it off before, or forge one whole "
            "piece after another.",
            *(self.zone, self.cut_in, self.before),
        )


def next_to(along: Sequence[str], zone: str) -> tuple[str, ...]:
    """The zones on either side of one along its bar; none where it is not one of them."""
    if zone not in along:
        return ()
    at = along.index(zone)
    return (*along[max(at - 1, 0) : at], *along[at + 1 : at + 2])


def pieces_by_bar(recipe: Recipe) -> list[list[str]]:
    """The pieces that are taken from one bar together, in their order."""
    found: dict[str, list[str]] = {}
    for piece in recipe.pieces.values():
        if piece.given_up and not any({*step.zones} & {*piece.every_zone} for step in recipe.steps):
            continue  # it was never marked out
        found.setdefault(f"from {piece.source}" if piece.source else piece.row, []).append(piece.name)
    return list(found.values())


def before_on_bar(recipe: Recipe, piece: str, marked_in: int = 1) -> tuple[str, ...]:
    """The pieces that lie before one on its bar when it is marked out: its marks are measured across them.

    That is in the first step which does, from step `marked_in` on.
    """
    rows = pieces_by_bar(recipe) if recipe.marks_in_row else []
    names = next((names for names in rows if piece in names), [])
    if len(names) < _TWO:
        return ()
    mine = {*recipe.pieces[piece].zones}
    from_there = recipe.steps[marked_in - 1 :]
    marked = (step.number for step in from_there if step.does(Does.MARKS_OUT) and mine & {*step.zones})
    earlier = recipe.steps[: next(marked, 1) - 1]
    worked = {zone for step in earlier if _works(step) for zone in step.zones}
    found: list[str] = []
    for name in reversed(names[: names.index(piece)]):
        if worked & {*recipe.pieces[name].every_zone}:
            break
        found.insert(0, name)
    return tuple(found)


def _works(step: Step) -> bool:
    """Whether a step does more to the bar than mark it: one whose piece was spoiled does nothing."""
    is_looked_at = step.operation == Inspect.NAME and not step.heats and not step.checks
    return not (step.does(Does.MARKS_OUT) or is_looked_at)


def next_on_bar(recipe: Recipe, piece: str) -> str | None:
    """The first zone of the piece whose marks are measured across this one, behind it on its bar."""
    names = next((names for names in pieces_by_bar(recipe) if piece in names), [piece])
    behind = next(iter(names[names.index(piece) + 1 :]), None)
    if behind is None or piece not in before_on_bar(recipe, behind):
        return None
    return recipe.pieces[behind].zones[0]


def across_others(recipe: Recipe, step: Step) -> dict[str, tuple[str, ...]]:
    """For each piece that a step or one after it marks out, those that its marks are measured across then."""
    if not (recipe.marks_in_row and step.does(Does.MARKS_OUT)):
        return {}
    ahead = {
        zone for one in recipe.steps[step.number - 1 :] if one.does(Does.MARKS_OUT) for zone in one.zones
    }
    marked = [name for name, piece in recipe.pieces.items() if ahead & {*piece.zones}]
    return {name: before for name in marked if (before := before_on_bar(recipe, name, step.number))}


def cut_off_in(recipe: Recipe, piece: str) -> int | None:
    """The first step that cuts a piece's far end, which stays on its bar as a handle until then."""
    last = recipe.pieces[piece].zones[-1]
    cuts = (step.number for step in recipe.steps if step.does(Does.CUTS_FREE) and last in step.zones)
    return next(cuts, None)


def is_handle(recipe: Recipe, piece: str) -> bool:
    """Whether a piece is worked on the end of its bar before it is cut off it."""
    cut_in, zones = cut_off_in(recipe, piece), {*recipe.pieces[piece].every_zone}
    before = recipe.steps[: (cut_in or 1) - 1]
    return any(step.heats and zones & {*step.zones} for step in before)


def lies_behind(recipe: Recipe, piece: str, number: int) -> tuple[str, int] | None:
    """The piece that lies before one on its bar when that step begins, and the step that cuts that off.

    None where its end is the end of the bar, or where they are cut apart in no step.
    """
    for names in pieces_by_bar(recipe):
        if piece in names:
            for before in reversed(names[: names.index(piece)]):
                cut_in = cut_off_in(recipe, before)
                if cut_in is not None and cut_in > number:
                    return before, cut_in
    return None


def inside_its_bar(recipe: Recipe) -> Iterator[Inside]:
    """The steps that forge the end of a piece while another lies before it on the bar."""
    if all(len(names) == 1 for names in pieces_by_bar(recipe)):
        return
    for step in recipe.steps:
        if not (step.heats and step.zones and operation(step.operation).RESHAPES):
            continue
        if step.does(Does.CUTS_FREE) or step.does(Does.PUNCHES):
            continue
        piece = recipe.piece_of(step.zones[0])
        end = next((zone for zone in step.zones if piece.root_of(zone) == piece.zones[0]), None)
        if end is not None and (found := lies_behind(recipe, piece.name, step.number)) is not None:
            yield Inside(step, end, *found)


def newly_inside(was: Recipe, now: Recipe) -> Inside | None:
    """The first end that would be worked inside its bar by a change, and was not before."""
    known = {(one.step.title, one.zone) for one in inside_its_bar(was)}
    return next((one for one in inside_its_bar(now) if (one.step.title, one.zone) not in known), None)
