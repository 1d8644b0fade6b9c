"""Bevelling a side: an edge is forged along a bar."""

from __future__ import annotations

from collections.abc import Iterator

from coach.finish.bevel import BarToBevel, bevel, bevel_range
from coach.forms import Form
from coach.forms.side_bevel import SideBevel as Bevelled
from coach.operations.base import Operation
from coach.quantities import Words, mm, say
from coach.quantities.refusal import OutOfRange


class SideBevel(Operation):
    """The metal that the edge gives up goes wide and long; the width that is asked for settles which."""

    SUMMARY = (
        "Thin the edge from end to end in small steps, both sides alike unless it is bevelled on one, and "
        "set the curve back as it comes."
    )
    ACCOUNT = (
        "`reach`, how far it goes over the width, and `edge`, how thick it is left, are sizes of the form"
    )
    FORM = "side bevel"
    HEATS = 3

    def know(self, before: Form, after: Form) -> Iterator[Words]:
        """How far the bar would widen and curve if it were let be."""
        have = before.sizes_mm()
        if not isinstance(after, Bevelled) or "width" not in have or "thickness" not in have:
            return
        bar = BarToBevel(have["width"], have["thickness"], after.edge_mm, min(after.reach_mm, have["width"]))
        try:
            wider, curve = bevel(bar).widening_mm, bevel_range(bar)
        except OutOfRange:
            return
        yield say(
            "The edge grows as it thins: let be, the bar runs to about {} wide and curves about its back to "
            "about {} radius, somewhere from {} to {}. Set it back after each pass, or bend it the "
            "other way first, to {}.",
            mm(bar.width_mm + wider),
            curve.radius,
            curve.tightest,
            curve.widest,
            curve.pre_curve,
        )
