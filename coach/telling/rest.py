"""What to do with fire and piece before they are left."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.resting import Care
from coach.telling.page import Line, Section, section


def care_section(care: Iterable[Care]) -> Section:
    """A line for each."""
    return section("", (Line(one.value, "Caution") for one in care))
