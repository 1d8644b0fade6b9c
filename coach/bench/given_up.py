"""Pieces that were given up: what of them was worked, and how they lie until they are cut off."""

from __future__ import annotations

from collections.abc import Collection

from coach.bench.job_state import JobState
from coach.ledger.amended import begun_again
from coach.ledger.workpiece import Workpiece
from coach.operations import Does


def is_worked(state: JobState, zones: Collection[str]) -> bool:
    """Whether anything was done to one of these zones besides marking it."""
    done = (one.step for one in state.records)
    return any(step.worked & {*zones} and not step.does(Does.MARKS_OUT) for step in done)


def lies_as_bar(now: Workpiece, state: JobState, piece: str) -> Workpiece:
    """The workpiece where a given up piece that is still to be cut off lies as a length of its bar."""
    recipe = state.plan.recipe
    zones = recipe.pieces[piece].zones
    ahead = recipe.steps[len(state.records) :]
    if not any({*step.zones} & {*zones} for step in ahead):
        return now
    worked = [zone for zone in zones if is_worked(state, (zone,))]
    return begun_again(now, state.plan, worked) if worked else now
