"""A piece that was bent or fell: by how much, what a step ahead allows of it, and what takes it out."""

from __future__ import annotations

import re
from typing import Final

from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.log.kinds.reading import Reading
from coach.log.kinds.to_put_right import ToPutRight
from coach.operations import Does, operation
from coach.operations.measures import BOW, WIND
from coach.quantities import degrees, mm
from coach.quantities.amounts import read_angle_deg, read_length_mm
from coach.quantities.errors import SizeError
from coach.quantities.units import System
from coach.quantities.words import NOTHING, Words, as_words, say
from coach.recipe.model import Step

#: A bow as it is noted where a step ahead trues it.
_BY_A_STEP: Final = re.compile(
    r"(?P<bowed>bowed by [^:]+: )step \d+, (?P<told>.+ at the most\.) (?P<then>.+)"
)
#: What is told in its place once that step is behind: nobody knows by it whether the bow is out.
_IS_BEHIND: Final = "step {}, {}, is done: see whether it is out."
#: What is typed where nobody has measured by how much.
NOT_MEASURED: Final = "not measured"
_STRAIGHTEN: Final = "straighten"
#: Endings that make an angle of what is typed.
_ANGLES: Final = ("°", "deg", "degree", "degrees")
_TRUE_IT: Final = "true it and look for a crack; what was read of it may have changed"
_HARD: Final = (
    "it is hard there, so it is not struck cold: look for a crack first; what was read of it may have changed"
)
#: What takes an angle out that is not meant (common practice, no source).
_BENT_BACK: Final = "one more heat at orange, bent back by {} over the edge of the anvil"
_THEN: Final = "look for a crack; what was read of it may have changed"
_LOOKED_AT: Final = "Then look for a crack; what was read of it may have changed"


def bent_by(state: JobState, zone: str, typed: str, system: System) -> Words:
    """What is to be put right of a zone that was bent.

    Args:
        state: of the job.
        zone: which was bent, or fell.
        typed: by how much, as a bow such as 3 or an angle such as 10 deg; or `NOT_MEASURED`.
        system: the units that a bare number is in, `mm` or `in`.

    Raises EntryFault: it is neither a length nor an angle.
    """
    hard = _is_hard(state, zone)
    if typed.strip().lower() == NOT_MEASURED:
        return as_words(_HARD if hard else _TRUE_IT)
    try:
        if typed.strip().lower().endswith(_ANGLES):
            angle = degrees(read_angle_deg(typed))
            cure = as_words(_HARD) if hard else say("{}; {}", say(_BENT_BACK, angle), _THEN)
            return say("bent by {}: {}", angle, cure)
        bow_mm = read_length_mm(typed, system)
    except SizeError as error:
        raise EntryFault("By how much it is bent: {}", error.words) from None
    cure = as_words(_HARD) if hard else say("{} {}", _straightened(state, zone, bow_mm), _LOOKED_AT)
    return say("bowed by {}: {}", mm(bow_mm), cure)


def bowed_at(state: JobState, read: Reading) -> Words:
    """What takes out a bow or a wind that was read while the zone is forged or straightened, unasked."""
    steps = state.plan.recipe.steps
    if read.dimension not in (BOW, WIND) or not 0 < read.step <= len(steps):
        return NOTHING
    step = steps[read.step - 1]
    work = operation(step.operation)
    if read.dimension in step.targets or not (work.RESHAPES or read.dimension in work.AFTER_OUT):
        return NOTHING
    return _straightened(state, read.zone, read.size, read.dimension)


def as_steps_are_now(state: JobState, note: ToPutRight) -> str:
    """What was noted of a bow, by the step that trues it as it is numbered now.

    By its cure where that step is gone, or is behind: once the zone is hard, by what holds for hard steel.
    Whatever else stands in a note stays.
    """
    if (found := _BY_A_STEP.fullmatch(note.text)) is None:
        return note.text
    steps, done = state.plan.recipe.steps, len(state.records)
    its_own = [step for step in steps if found["told"].startswith(f"{step.title}, ")]
    if ahead := next((step for step in its_own if step.number > done), None):
        return f"{found['bowed']}step {ahead.number}, {found['told']} {found['then']}"
    last = its_own[-1] if its_own else None
    behind = f"{_IS_BEHIND.format(last.number, last.title)} If not, " if last is not None else ""
    if _is_hard(state, note.zone):
        return f"{found['bowed']}{behind}{_HARD}"
    cure = operation(_STRAIGHTEN).AFTER_OUT[BOW]
    told = " ".join(one for one in cure.parts if isinstance(one, str))  # there is no figure in it
    return f"{found['bowed']}{behind}{told} {found['then']}"


def _straightened(state: JobState, zone: str, bow_mm: float, what: str = BOW) -> Words:
    """By the step ahead that trues it; where there is none, what takes a bow out."""
    steps = state.plan.recipe.steps[len(state.records) :]
    ahead = next((step for step in steps if what in step.targets and zone in step.zones), None)
    if ahead is None:
        return operation(_STRAIGHTEN).AFTER_OUT[what]
    most_mm = ahead.targets[what].high
    done = "allows that" if bow_mm <= most_mm else "takes it out"
    return say("step {}, {}, {}, with {} at the most.", ahead.number, ahead.title, done, mm(most_mm))


def _is_hard(state: JobState, zone: str) -> bool:
    return any(zone in step.metal for step in _done(state) if step.does(Does.QUENCHES))


def _done(state: JobState) -> tuple[Step, ...]:
    return tuple(state.plan.recipe.steps[: len(state.records)])
