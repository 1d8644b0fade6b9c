"""Fitting: two parts are tried together before they are joined."""

from __future__ import annotations

from coach.operations.does import Does
from coach.operations.idle import Cold
from coach.quantities import Kind


class Fit(Cold):
    """The gap is what is measured."""

    DOES = frozenset({Does.BRIGHT_WORK})
    TRIED_ON = True
    SUMMARY = "Try the parts together; light should not show between them."
    EXTRAS = {"gap": Kind.GAP}
    GROWS = {"gap": False}
    GAUGE = "by eye"
