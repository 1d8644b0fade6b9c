"""Pieces that were given up: what of them was worked, and how they lie until they are cut off."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from coach.bench.job_state import JobState, StepRecord
from coach.ledger.amended import begun_again
from coach.ledger.course import AmendmentMark, Mark
from coach.ledger.workpiece import Workpiece
from coach.operations import Does


def is_worked(state: JobState, zones: Collection[str]) -> bool:
    """Whether anything was done to one of these zones besides marking it; of one cut anew, since then."""
    done = (one.step for one in since_cut_anew(state, zones))
    return any(step.worked & {*zones} and not step.does(Does.MARKS_OUT) for step in done)


def is_cut_anew(state: JobState, zones: Collection[str]) -> bool:
    """Whether one of these zones was spoiled, and is cut from its bar anew."""
    return any(_cuts_anew(marks, zones) for marks in (*(one.marks for one in state.records), state.marks))


def since_cut_anew(state: JobState, zones: Collection[str]) -> Sequence[StepRecord]:
    """The finished steps since one of these zones was cut anew; all of them where none was."""
    if _cuts_anew(state.marks, zones):
        return ()
    anew = [at for at, record in enumerate(state.records, 1) if _cuts_anew(record.marks, zones)]
    return state.records[max(anew, default=0) :]


def _cuts_anew(marks: Sequence[Mark], zones: Collection[str]) -> bool:
    ways = (one.amendment for one in marks if isinstance(one, AmendmentMark))
    return any(one.zone in zones for way in ways for one in way.cut_anew)


def lies_as_bar(now: Workpiece, state: JobState, piece: str) -> Workpiece:
    """The workpiece where a given up piece that is still to be cut off lies as a length of its bar."""
    recipe = state.plan.recipe
    zones = recipe.pieces[piece].zones
    ahead = recipe.steps[len(state.records) :]
    if not any({*step.zones} & {*zones} for step in ahead):
        return now
    worked = [zone for zone in zones if is_worked(state, (zone,))]
    return begun_again(now, state.plan, worked) if worked else now
