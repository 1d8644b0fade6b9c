"""A bar or an offcut lies on the shop's rack: as measured now, which counts from here on."""

from __future__ import annotations

from coach.log.body import Body
from coach.log.limits import LONGEST_NAME, line, number
from coach.log.names import LONGEST_JOB

#: As thin and as thick as a bar that is reckoned, and no longer than any (our choice).
_LEAST_MM, _WIDEST_MM, _LONGEST_MM = 0.4, 508.0, 100_000.0
_HEAVIEST_G = 1_000_000.0


class RackBar(Body):
    """A bar of one section, by its length or by its weight; one of the same name before it is corrected."""

    CALLED = "a bar of the rack"
    SAYS = ("{} laid on the rack: {}", "name", "typed")
    OF_JOB = False
    OF_RACK = True

    name: str = line(LONGEST_JOB)
    typed: str = line()
    form: str = line(LONGEST_NAME)  # square, flat, round and so on
    width_mm: float = number(_LEAST_MM, _WIDEST_MM)  # of its section, the greatest size
    thickness_mm: float = number(_LEAST_MM, _WIDEST_MM)  # the least
    metal: str = line(LONGEST_NAME)  # its grade
    length_mm: float = number(0.1, _LONGEST_MM)
    mass_g: float | None = number(0.001, _HEAVIEST_G, or_none=True)  # where its length is reckoned from that
