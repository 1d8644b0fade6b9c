"""Sizes as people type and read them: lengths, masses, temperatures, durations, angles, shares, limits."""

from __future__ import annotations

from coach.quantities.amounts import (
    read_angle_deg,
    read_duration_s,
    read_length_mm,
    read_mass_g,
    read_share,
    read_temperature_c,
)
from coach.quantities.errors import SizeError
from coach.quantities.figure import (
    COVERAGE,
    Apart,
    Figure,
    Kind,
    Limit,
    Span,
    Wanted,
    aimed,
    celsius,
    degrees,
    grams,
    mm,
    seconds,
    share,
)
from coach.quantities.limits import Limits
from coach.quantities.refusal import Refusal
from coach.quantities.tolerances import read_limits
from coach.quantities.words import NOTHING, Words, as_words, counted, run_on, say

__all__ = [
    "COVERAGE",
    "NOTHING",
    "Apart",
    "Figure",
    "Kind",
    "Limit",
    "Limits",
    "Refusal",
    "SizeError",
    "Span",
    "Wanted",
    "Words",
    "aimed",
    "as_words",
    "celsius",
    "counted",
    "degrees",
    "grams",
    "mm",
    "read_angle_deg",
    "read_duration_s",
    "read_length_mm",
    "read_limits",
    "read_mass_g",
    "read_share",
    "read_temperature_c",
    "run_on",
    "say",
    "seconds",
    "share",
]
