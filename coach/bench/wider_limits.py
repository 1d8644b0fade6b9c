"""Limits in the drawing that would hold what came outside of them, for the next time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from coach.bench.sizes_came import SizeCame
from coach.quantities import COVERAGE, Limits
from coach.quantities.words import Words, run_on, say
from coach.recipe.limits_written import limits_text
from coach.recipe.model import Recipe

#: What is widened is widened to a tenth of a millimetre beyond what came (our choice).
_STEP_MM: Final = 0.1


def wider(recipe: Recipe, missed: Sequence[SizeCame]) -> Iterator[tuple[str, Words]]:
    """Changes of the recipe, the best first: all that came outside drawn wider, then one size alone.

    What lets a thickness go lets the length that follows from it go, and neither is enough without the other.
    A step that works to what the drawing asks has it in its own line as well: that goes with it.
    Whether the tool may be so is the smith's to say.
    """
    wide = [(one, text) for one in missed if (text := _wide_limits(recipe, one))]
    for some in (wide, *([one] for one in wide if len(wide) > 1)):
        if some:
            line = "; ".join(edit for one, text in some for edit in _edits(recipe, one, text))
            drawn = run_on((say("the {} {}", one.label, text) for one, text in some), " and ")
            yield line, say("draw {}, if the tool may be so", drawn)


def _edits(recipe: Recipe, size: SizeCame, text: str) -> Iterator[str]:
    """Of the drawing, and of each step that says the same limits for itself."""
    called = size.dimension.replace("_", " ")
    yield f"{size.zone}.{called}={text}"
    drawn = recipe.drawing[size.zone].limits[size.dimension]
    for step in recipe.steps:
        if size.zone in step.zones and step.targets.get(size.dimension) == drawn:
            yield f"step {step.number} {called} = {text}"


def _wide_limits(recipe: Recipe, size: SizeCame) -> str:
    """Limits as they are drawn, so wide that they hold what came; "" where there are none."""
    assert size.came is not None
    limits = recipe.drawing[size.zone].limits.get(size.dimension) if size.zone in recipe.drawing else None
    if limits is None:
        return ""
    doubt = COVERAGE * (size.came.doubt or 0.0)
    low, high = min(limits.low, size.came.value - doubt), max(limits.high, size.came.value + doubt)
    wide = Limits(
        limits.nominal,
        low if low == limits.low else _STEP_MM * (low // _STEP_MM),
        high if high == limits.high else _STEP_MM * (high // _STEP_MM + 1),
        stated=True,
    )
    return limits_text(wide, recipe.system) if wide.low > 0.0 else ""
