"""A bar that was split off its middle: what one tine has too little the other one has too much."""

from __future__ import annotations

from typing import Final

from coach.bench.job_state import JobState
from coach.ledger.course import Course
from coach.ledger.reading import cold_reading
from coach.ledger.tines import splits_alike
from coach.ledger.verdict import Verdict
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.operations import Does
from coach.operations.measures import OTHER_TINE, TINE
from coach.quantities.figure import mm
from coach.quantities.words import NOTHING, Words, say

_OFF_THE_MIDDLE: Final = (
    "both tines are one bar: beside this one the other has {}, and the split stands {} off the middle. "
    "No heat at the chisel mends that: more is drawn out of the wider one"
)
_LENGTHS: Final = ": drawn alike, this one comes out about {} long and the other about {}"
_ABOUT, _READ = "about {}", "{}"


def off_middle(state: JobState, read: Reading, entry: Entry) -> Words:
    """How wide the other tine is then, and how far off the split stands; nothing where it is as wanted."""
    if read.dimension not in (TINE, OTHER_TINE) or not 0 < read.step <= len(state.plan.recipe.steps):
        return NOTHING
    if not state.plan.recipe.steps[read.step - 1].does(Does.PARTS):
        return NOTHING
    outcomes = (one for course in state.courses() for one in course.outcomes)
    found = next((one for one in outcomes if one.mark.entry == entry.number), None)
    if found is None or found.limits is None or not found.counts or found.verdict is not Verdict.OUT:
        return NOTHING
    tine_mm, half_mm = cold_reading(found.mark.reading).size_mm, found.limits.nominal
    other_mm = found.other_mm if found.other_mm is not None else 2.0 * half_mm - tine_mm
    if other_mm <= 0.0:
        return NOTHING
    other = say(_READ if found.other_mm is not None else _ABOUT, mm(other_mm))
    told = say(_OFF_THE_MIDDLE, other, mm(0.5 * abs(tine_mm - other_mm)))
    return say("{}{}", told, _lengths(state, read.zone, tine_mm / (tine_mm + other_mm)))


def _lengths(state: JobState, zone: str, share: float) -> Words:
    """How long each comes out, of what both are expected to be: they are drawn to one section."""
    found = state.forecast()
    sizes = found.zones[zone].sizes if found is not None and zone in found.zones else ()
    long_mm = next((one.expected.value for one in sizes if one.dimension == "length"), None)
    if long_mm is None:
        return NOTHING
    return say(_LENGTHS, mm(2.0 * share * long_mm), mm(2.0 * (1.0 - share) * long_mm))


def other_tines(course: Course) -> tuple[str, ...]:
    """The other tine, by name, where one was read that is not half of its bar: it is asked for."""
    out = (one.mark.reading for one in course.outcomes if one.counts and one.verdict is Verdict.OUT)
    return tuple(
        f"{one.zone}.{OTHER_TINE}"
        for one in out
        if one.dimension == TINE and splits_alike(course.now.zones[one.zone].shape, course.step, one.zone)
    )
