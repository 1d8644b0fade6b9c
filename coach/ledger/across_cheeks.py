"""What an eye measures across, by the hole and both cheeks that were read: three of them tell the fourth."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot
from typing import NamedTuple

from coach.forms.eyed import Eyed
from coach.ledger.cheeks import across_of, believed_of, even_mm, left_for_cheeks
from coach.ledger.course import Course, HeatMark, Mark, Outcome, ReadingMark
from coach.ledger.nominal import Stage
from coach.ledger.possible import bound_passed
from coach.ledger.reading import Reading, cold_reading, surprise_of, taken_in
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Estimate, Workpiece
from coach.operations.measures import ALIKE


class Across(NamedTuple):
    """The sum of what was read across an eye, as a reading of it."""

    reading: Reading
    stands: bool  # whether one of them was insisted on


def with_cheeks(
    start: Workpiece,
    now: Workpiece,
    stages: Mapping[str, Stage],
    outcomes: Sequence[Outcome],
    marks: Sequence[Mark],
) -> Workpiece:
    """The workpiece with every eye as wide across as its hole and both cheeks make it.

    Those count that were read since the last heat, where what is across them was not. A sum that is not
    to be believed as things stand, or that no work of the step can leave, moves nothing: its cheeks are
    questioned.
    """
    fresh = _fresh(outcomes, marks)
    for zone in dict.fromkeys(zone for zone, dimension in fresh if dimension in ALIKE):
        across = _across(now, zone, fresh)
        if across is None:
            continue
        try:
            surprise = surprise_of(now, across.reading)
            believed = believed_of(outcomes)
            bound = bound_passed(start, now, stages.get(zone), across.reading, surprise.cold, believed)
            if across.stands or not (surprise.questioned or bound):
                now = taken_in(now, across.reading)
        except LedgerError:
            continue
    return now


def across_by_cheeks(course: Course, zone: str, dimension: str) -> Estimate | None:
    """What an eye measures across by its hole and both cheeks, where that was not read beside them."""
    across = _across(course.now, zone, _fresh(course.outcomes, course.marks))
    if across is None or across.reading.dimension != dimension:
        return None
    cold = cold_reading(across.reading)
    return Estimate(cold.size_mm, cold.doubt_mm, {})


def across_that_decides(course: Course) -> tuple[str, ...]:
    """The sizes across an eye, by name, that its hole and cheeks speak against and nobody measured."""
    doubted = (one.mark.reading for one in course.outcomes if one.questioned and not one.old)
    zones = dict.fromkeys(read.zone for read in doubted if read.dimension in ALIKE)
    left = ((zone, left_for_cheeks(course.now, zone)) for zone in zones)
    return tuple(f"{zone}.{one.across}" for zone, one in left if one is not None and not one.is_known)


def _fresh(outcomes: Sequence[Outcome], marks: Sequence[Mark]) -> dict[tuple[str, str], ReadingMark]:
    """The latest reading of each size since the last heat that is not in question."""
    last = max((at for at, mark in enumerate(marks) if isinstance(mark, HeatMark)), default=-1)
    entries = {mark.entry for mark in marks[last + 1 :] if isinstance(mark, ReadingMark)}
    read = (one for one in outcomes if one.mark.entry in entries and not one.questioned)
    return {one.mark.reading[:2]: one.mark for one in read}


def _across(now: Workpiece, zone: str, fresh: dict[tuple[str, str], ReadingMark]) -> Across | None:
    """The bar across an eye as its parts were read; None where one of them was not, or the bar itself was."""
    try:
        form = now.form(zone) if now.zones[zone].has_form else None
    except LedgerError:
        return None
    if not isinstance(form, Eyed) or (zone, across_of(form)) in fresh:
        return None
    parts = [fresh.get((zone, name)) for name in (*ALIKE, "hole_width")]
    read = [mark for mark in parts if mark is not None]
    if len(read) < len(parts):
        return None
    colds = [cold_reading(mark.reading) for mark in read]
    far = fresh.get((zone, "far_hole_width"))
    flare_mm = form.far_hole_width_mm - form.hole_width_mm
    if far is not None:
        flare_mm = cold_reading(far.reading).size_mm - colds[-1].size_mm
    size_mm = sum(cold.size_mm for cold in colds) + 0.5 * flare_mm
    # Read with one gauge: what it is out by is in each of them.
    bias_mm = sum(cold.bias_mm for cold in colds)
    chance_mm = hypot(bias_mm, even_mm(form), *(cold.chance_mm for cold in colds))
    first = read[0].reading
    reading = Reading(zone, across_of(form), size_mm, first.gauge, chance_mm=chance_mm, then=first.then)
    return Across(reading, any(mark.insisted for mark in read))
