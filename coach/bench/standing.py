"""Where a job stands, as both ways in show it: plain values whose names are also the JSON's keys.

Named tuples rather than dataclasses: they are made in a tenth of the time, and every opening of the bench
waits for them.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import Enum
from math import isfinite
from typing import TYPE_CHECKING, Literal, NamedTuple

from coach.bench.checks import Check
from coach.bench.righting import Right
from coach.bench.sizes import DrawnSize, MetalToSpare
from coach.log.status import JobStatus

if TYPE_CHECKING:
    from coach.bench.clock import HeatClock
    from coach.bench.learned import LearnedOfShop
    from coach.bench.skin import SteelSkin
    from coach.bench.step import StepToDo


class NoteView(NamedTuple):
    """Something written down during the job."""

    entry: int  # its entry's number
    text: str
    step: int  # the step then in hand
    at: str  # when


class DoneView(NamedTuple):
    """A step that is behind us."""

    number: int  # from 1
    title: str  # what it is called
    heats: int  # how many heats it took
    entry: int  # the number of the entry that finished it
    verdicts: tuple[tuple[str, str], ...]  # (label, verdict) of its last readings


class Standing(NamedTuple):
    """Everything about a job at one moment."""

    job: str  # the job's name
    title: str  # the recipe's title
    recipe: str  # the recipe's name
    state: JobStatus
    last_entry: int  # the number of the newest entry
    began_at: str  # when the job was begun
    last_at: str  # when the newest entry was made
    step: StepToDo | None  # None when every step is done
    steps: int  # how many the recipe has
    heats: int  # marked in this step
    heat_name: str  # what the heat in hand is for: set, weld, close, mend; "" where none has a name
    heats_total: int  # heats of the whole job
    clock: HeatClock | None  # None when nothing was said of the fire in this step, or it is none
    #: what the step asks to be measured, and whatever else was measured in it: a list of checks
    checks: tuple[Check, ...]
    next_check: str | None  # the name of the first check without a believed reading
    sizes: tuple[DrawnSize, ...]  # the drawing as it is now expected to come out: a list of sizes
    spares: tuple[MetalToSpare, ...]  # spares
    learned: tuple[LearnedOfShop, ...]  # what the readings have taught of the shop: a list of lessons
    skins: tuple[SteelSkin, ...]  # how deep the fire has taken the carbon out of each steel: a list of skins
    chance: float  # the chance of making the drawing
    verdict: str  # on plan, tight, off plan
    reason: str  # the verdict's reason, one sentence
    trouble: str  # why the reckoning cannot go on, "" when it can
    questioned: tuple[Check, ...]  # readings waiting to be taken again
    notes: tuple[NoteView, ...]  # notes
    to_right: tuple[Right, ...]  # what is still to be put right: a list of things
    done: tuple[DoneView, ...]  # the finished steps
    coming: tuple[str, ...]  # titles of the steps after this one
    may_rest: bool  # whether the job may be put down now
    rest_reason: str  # what must be done before the job may rest, "" when it may
    units: Literal["mm", "in"]  # mm or in


def plain(value: object) -> object:
    """Any of these as JSON-able values; a number that is not finite becomes None.

    Shapes: dataclasses and named tuples become objects keyed by field name, other sequences become lists.
    """
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {name: plain(item) for name, item in zip(value._fields, value, strict=True)}
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Enum):
        return plain(value.value)
    if isinstance(value, dict):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(item) for item in value]
    if isinstance(value, float):
        return value if isfinite(value) else None
    return value
