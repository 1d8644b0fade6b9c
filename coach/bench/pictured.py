"""What a picture of a job's piece may show: no more than was worked, and what of it nobody has read yet."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.standing import read_now
from coach.forms import Form, FormError
from coach.ledger.course import AmendmentMark
from coach.ledger.working import LedgerError, reshapes


class Pictured(NamedTuple):
    """The solids to draw, and the zones in work that no reading has settled."""

    forms: Mapping[str, Form]
    as_it_began: tuple[str, ...] = ()  # drawn as the step began: not all of its heats are marked
    as_planned: tuple[str, ...] = ()  # drawn as the step leaves them: its heats are marked


def pictured(state: JobState, believed: Mapping[str, Form]) -> Pictured:
    """The solids of a job as far as its piece was worked.

    The ledger believes of a size that nobody read that the step has made it, which a picture after the first
    heat of four must not show: until all heats are marked, or a size of the zone is read, the zone is drawn
    as the step began. A size that was read, and that nothing has worked since, is drawn as it was read: so it
    is told beside the picture, whatever else the ledger makes of it.

    Args:
        state: where the job stands.
        believed: the solids as the ledger has them now, by zone.
    """
    believed = _as_read(state, believed)
    course = state.course()
    if course is None or not course.is_begun or any(isinstance(one, AmendmentMark) for one in course.marks):
        return Pictured(believed)
    read = {one.mark.reading.zone for one in course.outcomes if not one.questioned}
    forms, as_it_began, as_planned = dict(believed), [], []
    for zone in course.step.zones if course.step.heats else ():
        lay = course.start.zones.get(zone)
        if zone in read or zone not in believed or lay is None or not lay.has_form:
            continue
        if not reshapes(course.step, zone):
            continue
        if course.heats < course.step.heats:
            with suppress(LedgerError):
                forms[zone] = course.start.form(zone)
                as_it_began.append(zone)
        else:
            as_planned.append(zone)
    return Pictured(forms, tuple(as_it_began), tuple(as_planned))


def _as_read(state: JobState, believed: Mapping[str, Form]) -> dict[str, Form]:
    sizes: dict[str, dict[str, float]] = {}
    for (zone, dimension), read in read_now(state).items():
        if read is not None and zone in believed and dimension in believed[zone].DIMENSIONS:
            sizes.setdefault(zone, {})[dimension] = read.value
    found = dict(believed)
    for zone, read_mm in sizes.items():
        with suppress(FormError):  # sizes that no solid has together
            found[zone] = believed[zone].with_sizes(read_mm).checked()
    return found
