"""Drifting: a punched hole is opened to size and shape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.operations.base import Operation
from coach.quantities import Kind


class Drift(Operation):
    """No metal leaves; the cheeks swell, so the width follows unless the recipe frees another dimension."""

    NAME: ClassVar[str] = "drift"
    EXTRAS: ClassVar[Mapping[str, Kind]] = {"cheek": Kind.LENGTH, "other_cheek": Kind.LENGTH}
    SUMMARY: ClassVar[str] = "Drive the drift through to open the eye."
    ACCOUNT: ClassVar[str] = "the hole's metal goes to the cheeks"
    FORM: ClassVar[str | None] = "eyed"
    HEATS: ClassVar[int] = 2
    CAUTION: ClassVar[str] = (
        "Stand clear of the line of the drift; a mushroomed head throws chips, so dress it first."
    )
