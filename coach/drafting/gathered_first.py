"""What a proposal gathers up first: a zone whose bar is too little for the section that it is worked to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil, sqrt
from typing import Final

from coach.drafting.proposed import Proposed
from coach.forms import Form
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.upset_heats import heats_to_upset
from coach.ledger.weigh_bigger import gathered, most_mm2
from coach.ledger.weigh_sizes import can_be_upset
from coach.ledger.working import targets_of
from coach.quantities.units import System
from coach.recipe.limits_written import size_text
from coach.recipe.shape_words import across

#: So much more than is lacking is gathered: no hand hits it (judgement).
_SPARE_SHARE: Final = 0.04
#: A section is told up to the next of these (our choice), mm.
_TOLD_MM, _TOLD_IN_MM = 0.5, 25.4 / 64
#: From here on metal is lacking (judgement).
_LACKS_SHARE: Final = 0.005


def to_gather(plan: Plan, unit: System) -> dict[str, Proposed]:
    """The upset that each zone wants before its first work; none where it has the metal, or would fold."""
    return {zone: step for zone, way in plan.stages.items() for step in _of(plan, zone, way, unit)}


def _of(plan: Plan, zone: str, way: tuple[Stage, ...], unit: System) -> Iterator[Proposed]:
    first = next((stage for stage in way if targets_of(stage.step, zone)), None)
    if first is None or not gathered(plan, first) or not can_be_upset(first):
        return
    share = max(_lacks(first), 1.0 + _LACKS_SHARE) * (1.0 + _SPARE_SHARE)
    section = _section(first.form_before, share, unit)
    if section:
        yield Proposed(
            "upset",
            f"{zone}, {section}, {max(2, ceil(heats_to_upset(first) * share))} heats",
            (("how", "Short heats, each on its own part; straighten what bends at once."),),
            f"The bar has too little for the {zone}: gathered up first; a heavier bar saves it.",
        )


def _lacks(stage: Stage) -> float:
    """How many times its bar's section the work wants, by what would have to shorten, thicken or widen."""
    before, after = stage.form_before, stage.form_after
    have, leaves, asked = before.sizes_mm(), after.sizes_mm(), targets_of(stage.step, stage.zone)
    shorter = have["length"] / leaves["length"] if {"length"} <= have.keys() & leaves.keys() else 1.0
    thicker = asked.get("thickness", 0.0) / have["thickness"] if "thickness" in have else 1.0
    return max(shorter, thicker, most_mm2(after) / most_mm2(before))


def _section(bar: Form, share: float, unit: System) -> str:
    """The bar's section so many times as large: a flat thicker, and any other in proportion."""
    sizes = bar.sizes_mm()
    if "thickness" in sizes and bar.KIND == "flat":
        thick = size_text(_told(share * sizes["thickness"], unit), unit)
        return f"{size_text(sizes['width'], unit)} x {thick}"
    names: Mapping[str, str] = across()
    name = names.get(bar.KIND, "")
    return f"{bar.KIND} {size_text(_told(sqrt(share) * sizes[name], unit), unit)}" if name in sizes else ""


def _told(size_mm: float, unit: System) -> float:
    step_mm = _TOLD_IN_MM if unit == "in" else _TOLD_MM
    return ceil(size_mm / step_mm) * step_mm
