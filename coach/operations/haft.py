"""Hafting: the handle is fitted, wedged and checked."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.idle import Cold
from coach.quantities import Kind


class Haft(Cold):
    """Cold work on the finished head."""

    DOES = frozenset({Does.FITS_A_HAFT, Does.BRIGHT_WORK})
    SUMMARY = "Fit the haft to the eye, drive it home and wedge it."
    ALSO_CALLED = ("handle", "helve", "hang")
    UNDONE_BY_FIRE = True
    BEFORE_FIRE = "Take the haft out before it goes near the fire."
    GAUGE = "rule"
    EXTRAS = {
        "haft_length": Kind.LENGTH,
        "hang": Kind.ANGLE,
        "proud": Kind.LENGTH,
        "kerf_depth": Kind.LENGTH,
        "wedge": Kind.LENGTH,
        "balance": Kind.LENGTH,
    }
    GROWS = {"haft_length": False, "proud": False, "kerf_depth": True}
    HAZARDS = ("haft",)
