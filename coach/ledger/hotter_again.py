"""A step that is done once more, hotter than it was."""

from __future__ import annotations

from typing import Final

from coach.quantities import Limits
from coach.recipe.model import Step

#: How a temper is drawn further, soaked or run to a colour (common practice, no source).
_SOAKED: Final = "Hotter than it has been, even right through, and for as long."
_RUN: Final = "Hotter than it has been, in minutes, as the colours run; a soak at that heat leaves it softer."


def at_heats(step: Step, heat_c: Limits) -> Step:
    """The step with other heats, in °C, without what its recipe says of those that it had."""
    how = _SOAKED if "soak" in step.targets else _RUN
    return step._replace(
        targets={**step.targets, "temperature": heat_c},
        temperature_c=heat_c.nominal,
        colour=_colour(heat_c.nominal) if step.colour else "",
        how=how,
        watch="",
    )


def _colour(heat_c: float) -> str:
    """The colour that a run to a heat shows; empty where there is none."""
    from coach.fire.colours import NO_COLOUR, PAST_COLOURS
    from coach.fire.temper_colours import TEMPER_COLOURS
    from coach.quantities.refusal import OutOfRange

    try:
        colour = TEMPER_COLOURS.name_of(heat_c)
    except OutOfRange:
        return ""
    return "" if colour in (NO_COLOUR, PAST_COLOURS) else colour
