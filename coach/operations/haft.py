"""Hafting: the handle is fitted, wedged and checked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.idle import Idle


class Haft(Idle):
    """Cold work on the finished head."""

    NAME: ClassVar[str] = "haft"
    SUMMARY: ClassVar[str] = "Fit the haft to the eye, drive it home and wedge it."
    HEATS: ClassVar[int] = 0
    HEAT_KIND: ClassVar[str] = "cold"
    UNDONE_BY_FIRE: ClassVar[bool] = True
    GAUGE: ClassVar[str] = "rule"
    EXTRAS: ClassVar[Mapping[str, str]] = {
        "haft_length": "length",
        "hang": "angle",
        "proud": "length",
        "kerf_depth": "length",
        "wedge": "length",
        "balance": "length",
    }
    CAUTION: ClassVar[str] = (
        "Wood dust: lungs covered. Drive the wedge with the head held down, never in the hand; a sharp "
        "edge is taped first."
    )
