"""What else is to be said of a reading, besides whether it is good."""

from __future__ import annotations

from collections.abc import Iterator

from coach.bench.bent import bowed_at
from coach.bench.beyond_span import beyond_span
from coach.bench.gauge_reads_off import gauge_reads_off
from coach.bench.job_state import JobState
from coach.bench.off_along import off_along
from coach.bench.off_middle import off_middle
from coach.bench.one_size import one_size
from coach.bench.out_of_square import out_of_square
from coach.bench.out_of_true import out_of_true
from coach.bench.soaked_by_clock import soaked_by_clock
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.quantities.units import System
from coach.quantities.words import Words


def beside_reading(
    state: JobState, name: str, read: Reading, entry: Entry, system: System
) -> Iterator[Words]:
    """What is out of true or off its place by it, a soak against the clock, a gauge too short or off.

    Args:
        state: of the job, with the reading in it.
        name: of the size, as it was given.
        read: what was read.
        entry: by which.
        system: the units that a bare number is in, `mm` or `in`.
    """
    yield one_size(state, name, read)
    yield out_of_square(state, read, system)
    yield out_of_true(read.dimension, read.typed, system)
    yield off_along(state, read)
    yield bowed_at(state, read)
    yield off_middle(state, read, entry)
    yield soaked_by_clock(state, read, entry.at)
    yield beyond_span(state, read, entry.number)
    yield gauge_reads_off(state, read, entry.number)
