"""What was read of a size after a reading that is put down later than it was taken, as from paper notes."""

from __future__ import annotations

from coach.ledger.course import Course
from coach.log.kinds.reading import Reading
from coach.quantities import Figure, Kind


def read_since(course: Course, read: Reading, number: int) -> Figure | None:
    """The size, cold, that counts in place of the entry of that number; None where none was read since it."""
    last = course.last(read.zone, read.dimension)
    if last is None or last.mark.entry == number or not last.counts or last.surprise is None:
        return None
    return Figure(last.surprise.cold.size_mm, Kind.LENGTH, last.surprise.cold.doubt_mm)
