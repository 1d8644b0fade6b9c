"""Punching: a hole is driven through and a slug of metal falls out."""

from __future__ import annotations

from typing import ClassVar

from coach.forms import Form
from coach.operations.base import Operation, Work
from coach.operations.does import Cause, Does
from coach.operations.measures import CENTRE
from coach.quantities import Kind

#: A slug punched from both sides is thinner than the metal; the rest of the hole is metal pushed aside.
#: Common practice, no source: about a fifth of the depth. A recipe may state its own.
USUAL_SLUG_SHARE_OF_DEPTH = 0.2


class Punch(Operation):
    """The slug is lost; the metal pushed aside goes to the width unless the recipe frees another size."""

    DOES = frozenset({Does.PUNCHES})
    EXTRAS = {"cheek": Kind.LENGTH, "other_cheek": Kind.LENGTH, CENTRE: Kind.LENGTH}
    SUMMARY = "Punch from both sides, cooling the punch, until the slug drops."
    ALSO_CALLED: ClassVar[tuple[str, ...]] = ("drill", "slot punch", "hole")
    ACCOUNT = "`slug`: hole area × slug thickness; a fifth of the depth unless said"
    FORM = "eyed"
    HEATS = 3
    AMOUNTS = {"slug": Kind.LENGTH}

    def taken_mm3(self, before: Form, volume_mm3: float, work: Work) -> dict[Cause, float]:
        """The slug: the punch's own area times the slug's thickness."""
        sizes = dict(work.sizes_mm)
        sizes.setdefault(work.free, before.sizes_mm().get(work.free, 1.0))
        through = work.shape.options.get("through", "thickness")
        depth_mm = sizes[through]
        holed = work.shape.draft(sizes)
        hole_mm3 = sizes["width"] * sizes["thickness"] * sizes["length"] - holed.volume_mm3()
        slug_mm = work.amounts.get("slug_mm", USUAL_SLUG_SHARE_OF_DEPTH * depth_mm)
        return {Cause.SLUG: hole_mm3 / depth_mm * min(slug_mm, depth_mm)}
