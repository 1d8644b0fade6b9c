"""What holds all day, as it is said once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coach.bench.care import SaidOnce
from coach.operations.hazards import Moment
from coach.telling.page import Line, Section, section

_HEADS = {Moment.BEGIN: "Before you begin", Moment.FIRST_FIRE: "Before the first fire is lit"}


def care_sections(said: Iterable[SaidOnce]) -> Iterator[Section]:
    """A section for each moment, a line for each thing."""
    for one in said:
        yield section(_HEADS[one.moment], (Line(caution, mark="•") for caution in one.cautions))
