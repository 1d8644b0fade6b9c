"""A bar that was split off its middle: what one tine has too little the other one has too much."""

from __future__ import annotations

from typing import Final

from coach.bench.job_state import JobState
from coach.ledger.course import Course, Outcome
from coach.ledger.reading import cold_reading
from coach.ledger.tines import splits_alike
from coach.ledger.verdict import Judged, Verdict
from coach.ledger.wanting import works_ahead
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.operations import Does
from coach.operations.measures import OTHER_TINE, TINE
from coach.quantities.figure import mm
from coach.quantities.words import NOTHING, Words, say
from coach.recipe.model import Step

_OFF_THE_MIDDLE: Final = (
    "both tines are one bar: beside this one the other has {}, and the split stands {} off the middle. "
    "No heat at the chisel mends that: more is drawn out of the wider one"
)
_LENGTHS: Final = ": drawn alike, this one comes out about {} long and the other about {}"
_CUT_BACK: Final = "; the longer one is then cut back by {}, for the drawing allows {}"
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
    tine_mm, other_mm = _both_mm(found, found.limits.nominal)
    if other_mm <= 0.0:
        return NOTHING
    other = say(_READ if found.other_mm is not None else _ABOUT, mm(other_mm))
    told = say(_OFF_THE_MIDDLE, other, mm(0.5 * abs(tine_mm - other_mm)))
    return say("{}{}", told, _lengths(state, read.zone, tine_mm / (tine_mm + other_mm)))


def _both_mm(one: Outcome, half_mm: float) -> tuple[float, float]:
    """A tine as it was read, and the other one: as it was read, or what is left of the bar, mm."""
    tine_mm = cold_reading(one.mark.reading).size_mm
    return tine_mm, one.other_mm if one.other_mm is not None else 2.0 * half_mm - tine_mm


def _lengths(state: JobState, zone: str, share: float) -> Words:
    """How long each comes out, of what both are expected to be: they are drawn to one section."""
    long_mm = _long_mm(state, zone)
    if long_mm is None:
        return NOTHING
    told = say(_LENGTHS, mm(2.0 * share * long_mm), mm(2.0 * (1.0 - share) * long_mm))
    most = state.plan.recipe.drawing[zone].limits.get("length")
    longest_mm = 2.0 * max(share, 1.0 - share) * long_mm
    if most is None or longest_mm <= most.high:
        return told
    return say("{}{}", told, say(_CUT_BACK, mm(longest_mm - most.high), mm(most.high)))


def _long_mm(state: JobState, zone: str) -> float | None:
    """How long both tines are expected to be in the end, mm; None where no length is drawn."""
    found = state.forecast()
    sizes = found.zones[zone].sizes if found is not None and zone in found.zones else ()
    return next((one.expected.value for one in sizes if one.dimension == "length"), None)


def drawn_ahead(state: JobState, step: Step, one: Outcome) -> Judged | None:
    """What was found of a size; of a tine that is out, whether a step ahead makes both as they are drawn.

    It does where both have the metal for their width, and the thinner one for the least length, too.
    """
    reading, judged = one.mark.reading, one.judged
    if judged is None or judged.verdict is not Verdict.OUT or not is_tine_of_split(step, one):
        return judged
    assert one.limits is not None
    tine_mm, other_mm = _both_mm(one, one.limits.nominal)
    thin_mm = min(tine_mm, other_mm)
    ahead = works_ahead(state.plan, step, reading.zone, TINE)
    if not ahead or thin_mm < ahead[0].step.targets[TINE].low:
        return judged
    least = state.plan.recipe.drawing[reading.zone].limits.get("length")
    long_mm = _long_mm(state, reading.zone)
    if least is None or long_mm is None or 2.0 * long_mm * thin_mm / (tine_mm + other_mm) < least.low:
        return judged
    return judged._replace(verdict=Verdict.PAST_STEP)


def is_tine_of_split(step: Step, one: Outcome) -> bool:
    """Whether it was read of a tine at the split, where the bar that both are of tells the other."""
    is_one = one.mark.reading.dimension in (TINE, OTHER_TINE) and one.limits is not None and one.counts
    return is_one and step.does(Does.PARTS)


def other_tines(course: Course) -> tuple[str, ...]:
    """The other tine, by name, where one was read that is not half of its bar: it is asked for."""
    out = (one.mark.reading for one in course.outcomes if one.counts and one.verdict is Verdict.OUT)
    return tuple(
        f"{one.zone}.{OTHER_TINE}"
        for one in out
        if one.dimension == TINE and splits_alike(course.now.zones[one.zone].shape, course.step, one.zone)
    )
