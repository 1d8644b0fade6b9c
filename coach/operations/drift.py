"""Drifting: a punched hole is opened to size and shape."""

from __future__ import annotations

from coach.operations.base import Operation
from coach.quantities import Kind


class Drift(Operation):
    """No metal leaves; the cheeks swell, so the width follows unless the recipe frees another dimension."""

    EXTRAS = {"cheek": Kind.LENGTH, "other_cheek": Kind.LENGTH}
    SUMMARY = "Drive the drift through to open the eye."
    ALSO_CALLED = ("open", "ream", "expand")
    ACCOUNT = "the hole's metal goes to the cheeks"
    FORM = "eyed"
    HEATS = 2
    HAZARDS = ("struck-end",)
