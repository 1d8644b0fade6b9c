"""Weighs layers that lie loose, in a stack or a fold: they are one bar when they are welded."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.ledger.layers import times_of
from coach.ledger.plan import Plan
from coach.operations import Does, operation
from coach.quantities import Words, say
from coach.recipe.model import Piece, Step

_WELDS: Final = frozenset({Does.CLOSES, Does.JOINS})
#: What moves or hardens a stack besides the operations that move metal on purpose.
_USES: Final = frozenset({Does.BENDS, Does.GROOVES, Does.QUENCHES})
#: What may be done to a fold that is left open, as a hem is: it is no blow that thins it.
_LEAVES_FOLD: Final = frozenset({Does.BENDS, Does.PUNCHES, Does.PIERCES, Does.FASTENS})


class Loose(NamedTuple):
    """Layers that are worked as if they were one."""

    step: Step  # the step that does so; where none works them the last on them
    zone: str
    words: Words


class _Lies(NamedTuple):
    """Layers that lie on each other and are not welded."""

    zone: str  # that a weld would shut
    since: int  # the step that folded it; 0 of a stack


def worked_loose(plan: Plan) -> Iterator[Loose]:
    """The first step that works loose layers as one bar, once of each stack and of each fold.

    A stack that no step works and none welds is told of too. Of a fold nothing is: it may be meant to stay
    open. What cuts a stack to length or cleans its faces leaves it as it lies.
    """
    recipe, told = plan.recipe, set[_Lies]()
    loose = {zone: _Lies(zone, 0) for piece in recipe.pieces.values() for zone in _stacked(piece)}
    for step in recipe.steps:
        todo, worked = operation(step.operation), dict.fromkeys((*step.zones, *step.together))
        for zone in worked:
            if zone not in loose and (source := recipe.piece_of(zone).source):
                lies = loose.get(recipe.pieces[source].zones[0])
            else:
                lies = loose.get(zone)
            if todo.DOES & _WELDS:
                loose.pop(zone, None)
                continue
            if lies is not None and lies not in told and _works(step, is_fold=lies.since > 0):
                told.add(lies)
                yield Loose(step, zone, _words(recipe.piece_of(lies.zone), lies, told=True))
            if lies is not None:
                loose.update(dict.fromkeys(step.parts, lies))
            stage = plan.by_step.get(step.number, {}).get(zone)
            if lies is None and stage is not None and times_of(stage) > 1:
                loose[zone] = _Lies(zone, step.number)
    last = {zone: step for step in recipe.steps for zone in (*step.zones, *step.together)}
    for lies in dict.fromkeys(loose.values()):
        piece = recipe.piece_of(lies.zone)
        if not lies.since and lies not in told and not piece.given_up:
            yield Loose(last.get(lies.zone, recipe.steps[-1]), lies.zone, _words(piece, lies, told=False))


def _stacked(piece: Piece) -> tuple[str, ...]:
    """The zones of what begins as a stack of its own."""
    return piece.zones if piece.layers and not piece.source else ()


def _works(step: Step, *, is_fold: bool) -> bool:
    """Whether a step treats loose layers as one bar."""
    todo = operation(step.operation)
    moves = todo.RESHAPES and not todo.FIXES
    if is_fold:
        return moves and not todo.KEEPS_SECTION and not todo.DOES & _LEAVES_FOLD
    return moves or bool(todo.DOES & _USES)


def _words(piece: Piece, lies: _Lies, *, told: bool) -> Words:
    if lies.since:
        return say(
            "{} lies folded on itself there since step {}, and no step between welds it: under the hammer "
            "its layers slide on each other and part. Write weld shut: {} before this.",
            *(lies.zone, lies.since, lies.zone),
        )
    begun = "{} begins as {} bars that lie loose on each other, and no step {}welds them into one: write "
    begun += "weld shut: {} before {}."
    what = ("before it ", lies.zone, "this") if told else ("", lies.zone, "it is used")
    return say(begun, lies.zone, len(piece.layers), *what)
