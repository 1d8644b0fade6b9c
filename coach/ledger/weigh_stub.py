"""Weighs stubs: an end that is drawn from less bar than it is thick folds in over itself."""

from __future__ import annotations

from typing import Final

from coach.ledger.nominal import Stage
from coach.ledger.working import reshapes
from coach.operations import Does, operation
from coach.quantities import Words, mm, say

#: So short a piece of bar, in its own thicknesses, is not drawn by itself: the hammer spreads its faces
#: before its middle moves, and the end caves in (common practice, no source; the share is judgement).
_LEAST_OF_THICKNESS: Final = 0.3
#: What hardly gets longer is dressed, not drawn (our choice).
_DRAWN_FROM: Final = 1.5


def drawn_from_a_stub(stage: Stage) -> Words | None:
    """A zone that is to be drawn out of a slice of bar; None of all else."""
    step, have, leaves = stage.step, stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    todo = operation(step.operation)
    if (
        not step.does(Does.HAMMERS_A_SECTION)
        or stage.zone not in step.zones
        or stage.laid_mm3
        or todo.GATHERS
    ):
        return None
    long_mm, thick_mm = have.get("length"), min((have[one] for one in _ACROSS if one in have), default=0.0)
    if long_mm is None or not reshapes(step, stage.zone) or long_mm >= _LEAST_OF_THICKNESS * thick_mm:
        return None
    if leaves.get("length", 0.0) < _DRAWN_FROM * long_mm:
        return None
    return say(
        "{} is drawn from {} of a bar {} thick: so short an end folds in over itself. Take a thinner bar, or "
        "mark it longer and cut off what is too much.",
        *(stage.zone, mm(long_mm), mm(thick_mm)),
    )


_ACROSS: Final = ("thickness", "side", "diameter", "across_flats", "width")
