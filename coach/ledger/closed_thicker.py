"""A ring or a link that is read too short once it is welded shut: its weld has made its bar no thicker."""

from __future__ import annotations

from typing import Final, NamedTuple

from coach.forms import FormError
from coach.ledger.course import Course
from coach.operations import Does
from coach.quantities import COVERAGE

#: What lies across the bar of a ring, by whichever name its section has.
_ACROSS: Final = ("thickness", "diameter", "side")


class Thicker(NamedTuple):
    """What the metal would have to make of a bar that no weld makes thicker."""

    dimension: str  # across its bar
    was_mm: float  # before the weld
    seems_mm: float  # by the size that was read, with all its metal
    drawn_mm: float  # if its bar is as it was, and it is drawn on to what is aimed at


def closed_thicker(course: Course, zone: str, aim_mm: float | None = None) -> Thicker | None:
    """How thick a ring's bar would be by what was read of it since its weld; None where it is no thicker.

    None too where the bar itself was read in that step. `aim_mm` is how big the ring is to be.
    """
    start, now = course.start, course.now
    if not course.step.does(Does.CLOSES) or zone not in course.step.zones or zone not in now.zones:
        return None
    state, free = now.zones[zone], now.zones[zone].free
    if not (state.has_form and start.zones[zone].has_form and start.form(zone).CLOSED):
        return None
    readings = (one.mark.reading for one in course.outcomes if one.counts)
    read = {reading.dimension for reading in readings if reading.zone == zone}
    had, has = start.zones[zone].shape.dimensions, state.shape.dimensions
    across = next((one for one in _ACROSS if one in had and one in has), None)
    if across is None or across in read or free not in read:
        return None
    was, seems = start.size(zone, across), now.size(zone, across)
    if seems.value - was.value <= COVERAGE * max(was.doubt, seems.doubt):
        return None
    drawn_mm = was.value
    if aim_mm is not None:
        form = now.form(zone).with_sizes({across: was.value})
        try:
            on = form.with_sizes({free: aim_mm}).solved(across, form.volume_mm3())
        except FormError:
            return None
        drawn_mm = on.size_mm(across)
    return Thicker(across, was.value, seems.value, drawn_mm)
