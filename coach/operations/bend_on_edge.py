"""Bending on edge: a flat bar is turned the hard way, in the plane of its width."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from coach.forms import Form
from coach.operations.bend import Bend
from coach.operations.does import Does
from coach.quantities import Words, mm, say

#: Inside radii that the change of thickness is told for, in widths of the bar (our choice).
_TOLD_RADII: Final = (1, 2, 4)


def side_changes(width_mm: float, radius_mm: float) -> tuple[float, float]:
    """The shares by which the inner edge thickens and the outer one thins, bent to this inside radius.

    The middle of the width keeps its length, so a fibre at the radius r becomes r/(R + w/2) as long. Pulled
    or pressed along its length alone, metal that keeps its volume changes by the root of that across, alike
    in its width and in its thickness (W. F. Hosford & R. M. Caddell, Metal Forming, from memory).

    >>> [round(share, 3) for share in side_changes(25.0, 50.0)]
    [0.118, 0.087]
    """
    middle_mm = radius_mm + width_mm / 2.0
    return math.sqrt(middle_mm / radius_mm) - 1.0, 1.0 - math.sqrt(middle_mm / (radius_mm + width_mm))


class BendOnEdge(Bend):
    """A bend whose radius runs along the width; the section is dressed back to what it was as it goes."""

    DOES = frozenset({Does.BENDS, Does.ON_EDGE})
    SUMMARY = (
        "Bend it on its edge over the horn, a little in each heat; lay it flat after every few blows and "
        "dress the inner edge back, which thickens and buckles."
    )
    ACCOUNT = (
        "nothing: the middle of the width keeps its length, and the edges are dressed back to the thickness; "
        "as in bend, a `form` of ring may be named"
    )
    HEATS = 3

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How much the inner edge thickens and the outer one thins, by how tight the bend is."""
        width_mm = before.sizes_mm().get("width")
        if width_mm is None:
            return
        for widths in _TOLD_RADII:
            thicker, thinner = side_changes(width_mm, widths * width_mm)
            yield say(
                "To {} inside its inner edge thickens by {}, and its outer one thins by {}, before they are "
                "dressed.",
                *(mm(widths * width_mm), f"{100 * thicker:.0f} %", f"{100 * thinner:.0f} %"),
            )
