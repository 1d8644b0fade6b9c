"""Limits for the size that a zone's metal makes, where it was answered without: a width, a lap, an inside."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import ceil, floor
from typing import Final

from coach.drafting.in_file import Edit, InFile, edited
from coach.forms import FormError, form_kind
from coach.ledger.plan import Plan
from coach.ledger.room_for_scale import left_by_scale
from coach.quantities import Limits
from coach.quantities.units import System
from coach.recipe.limits_written import limits_text
from coach.recipe.measuring import NUMBER
from coach.recipe.model import ZoneDrawing

#: No closer than this, mm, or this share of what is smaller than that allows (judgement).
_LEAST_MM, _LEAST_OFF_SHARE = 1.0, 0.2
#: Told in steps of so much, mm, and of a size below the last in a tenth of a millimetre (our choice).
_STEP_MM, _STEP_IN_MM, _FINER_BELOW_MM, _FINE_MM = 0.5, 25.4 / 64, 10.0, 0.1
#: No size goes below this share of what it is to be (our choice).
_LEAST_SHARE: Final = 0.5
#: Nor off by more than this share of it: wider limits are asked about, as if they were a slip (our choice).
_MOST_OFF_SHARE: Final = 0.4
#: A size with a unit of its own, as it stands in a line.
_SIZE: Final = re.compile(rf"{NUMBER}(?: ?(?:mm|in)\b)?")
#: What a calliper is off on hot metal, beyond what the fire takes (judgement), mm.
_HAND_MM: Final = 0.5
_WITHIN: Final = 1e-6  # of a step, for what the computer rounds (our choice)


def with_free_limits(text: str, source: str, plan: Plan, share: float, unit: System) -> str:
    """A proposed recipe whose bare sizes that follow from the metal may be off as far as so much metal makes.

    `share` is that of the zone's metal. What is bent of a bar that nobody draws may besides be as much
    thinner as its fires leave it.
    """
    file = InFile(text, source)
    edits = [
        edit
        for zone, drawn in plan.recipe.drawing.items()
        for name, limits in (*_free(plan, drawn, share, unit), *_thinned(plan, drawn))
        if (edit := _edit(file, zone, name, limits, unit)) is not None
    ]
    return edited(text, edits)


def _free(plan: Plan, drawn: ZoneDrawing, share: float, unit: System) -> Iterator[tuple[str, Limits]]:
    """The size that the last work on a zone leaves to the metal, but for a length: that has its own."""
    way = plan.stages.get(drawn.zone, ())
    if not way or way[-1].after.shape.kind != drawn.shape.kind:
        return
    name = way[-1].after.free
    was = drawn.limits.get(name)
    if name == "length" or was is None or was.stated:
        return
    solid = way[-1].form_after
    try:
        ends = [solid.solved(name, solid.volume_mm3() * (1.0 + by)).size_mm(name) for by in (-share, share)]
    except FormError:
        return
    step_mm = _STEP_IN_MM if unit == "in" else _STEP_MM
    if was.nominal < _FINER_BELOW_MM and unit == "mm":
        step_mm = _FINE_MM
    off_mm = max(
        min(_LEAST_MM, _LEAST_OFF_SHARE * was.nominal), ceil(0.5 * abs(ends[1] - ends[0]) / step_mm) * step_mm
    )
    off_mm = min(off_mm, floor(_MOST_OFF_SHARE * was.nominal / step_mm + _WITHIN) * step_mm)
    yield name, Limits(was.nominal, was.nominal - off_mm, was.nominal + off_mm, stated=True)


def _thinned(plan: Plan, drawn: ZoneDrawing) -> Iterator[tuple[str, Limits]]:
    """What lies across a bent bar, where its fires leave it nearer to the least than a hand is off."""
    if not form_kind(drawn.shape.kind).BENT:
        return
    beside, _ = left_by_scale(plan.recipe, drawn.zone)
    for name, by_mm in beside.items():
        was = drawn.limits[name]
        if was.stated or by_mm >= 0.0 or was.nominal + by_mm >= was.low + _HAND_MM:
            continue
        low_mm = max(_down(was.nominal + by_mm - _HAND_MM), _LEAST_SHARE * was.nominal)
        yield name, Limits(was.nominal, low_mm, was.high, stated=True)


def _down(size_mm: float) -> float:
    """To a tenth of a millimetre."""
    return floor(size_mm * 10.0) / 10.0


def _edit(file: InFile, zone: str, name: str, limits: Limits, unit: System) -> Edit | None:
    """The size as it stands, with its limits; None where the line has it from another."""
    start = file.at(("drawing", zone, name))
    found = _SIZE.match(file.text, start)
    if found is None or file.text[found.end() :].lstrip().startswith(("±", "+", "at ")):
        return None
    there = limits_text(limits, unit).split(" ", 1)
    return Edit(start, found.end(), f"{found[0]} {there[1]}") if len(there) > 1 else None
