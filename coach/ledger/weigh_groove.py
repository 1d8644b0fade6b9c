"""Weighs grooves: one that is deeper or wider than what it is sunk into is none."""

from __future__ import annotations

from itertools import permutations
from typing import Final

from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.operations import Does
from coach.quantities import Words, mm, run_on, say

#: A groove leaves at least this share of what it is sunk into; a deeper one parts it (judgement).
_LEAVES_SHARE: Final = 0.1


def groove_too_large(plan: Plan, stage: Stage) -> Words | None:
    """A groove that finds no room in its zone, whichever way it lies; None where it may have it.

    Into the length of a zone only its bar's end is cleft. What is bent nobody can tell. A cleft that steel is
    laid in is held against its steel elsewhere.
    """
    step, zone, form = stage.step, stage.zone, stage.form_before
    asked = {name: step.targets[name].nominal for name in _ASKED if name in step.targets}
    if not step.does(Does.GROOVES) or not asked or zone not in step.zones:
        return None
    if form.unbent() is not None or "length" not in form.DIMENSIONS or _is_cleft(plan, stage):
        return None
    across = [_across_mm(stage, at) for at in (0.0, form.length_mm)]
    wide_mm, thick_mm = (max(one[side] for one in across) for side in (0, 1))
    sizes = (wide_mm, thick_mm, form.length_mm)
    depth_mm, width_mm, length_mm = (asked.get(name, 0.0) for name in _ASKED)
    ends = plan.recipe.piece_of(zone).finished_zones
    into = 3 if zone not in ends or zone in (ends[0], ends[-1]) else 2
    for deep, broad, along in permutations(range(3)):
        fits = width_mm <= sizes[broad] and length_mm <= sizes[along]
        if deep < into and fits and depth_mm <= sizes[deep] * (1.0 - _LEAVES_SHARE):
            return None
    told = run_on((say("{} {}", mm(size), _ASKED[name]) for name, size in asked.items()), ", ")
    return say(
        "a groove {} has no room in {}, which is {} × {} there and {} long: make it smaller.",
        *(told, zone, mm(wide_mm), mm(thick_mm), mm(form.length_mm)),
    )


#: What of a groove is asked for, and what that is called.
_ASKED: Final = {"groove_depth": "deep", "groove_width": "wide", "groove_length": "long"}


def _across_mm(stage: Stage, at_mm: float) -> tuple[float, float]:
    wide, thick = (max(one) - min(one) for one in zip(*stage.form_before.section(at_mm).outline, strict=True))
    return max(wide, thick), min(wide, thick)


def _is_cleft(plan: Plan, stage: Stage) -> bool:
    """Whether steel is laid into it later."""
    later = plan.recipe.steps[stage.step.number :]
    return any("inset_mm" in one.amounts and stage.zone in one.zones for one in later)
