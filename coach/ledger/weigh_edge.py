"""Weighs edge angles: what is no edge at all, and what hardly ever is one."""

from __future__ import annotations

from typing import Final

from coach.quantities import Kind, Span, Words, degrees, say
from coach.recipe.model import Step

#: From so many degrees on there is no edge (by definition).
_FLAT_DEG: Final = 180.0
#: Razors have some 15°, knives 30°, cold chisels 60° to 70°; hardly any edge lies outside of this (common
#: practice, no source).
_USUAL_DEG: Final = (7.0, 100.0)


def no_edge(step: Step) -> Words | None:
    """An angle that two faces cannot meet at."""
    limits = step.targets.get("edge_angle")
    if limits is None or limits.nominal < _FLAT_DEG:
        return None
    return say(
        "an edge of {} is none: its faces meet at less than {}.", degrees(limits.nominal), degrees(_FLAT_DEG)
    )


def odd_edge(step: Step) -> Words | None:
    """An angle that hardly any edge has."""
    limits = step.targets.get("edge_angle")
    if limits is None or limits.nominal >= _FLAT_DEG or _USUAL_DEG[0] <= limits.nominal <= _USUAL_DEG[1]:
        return None
    return say(
        "Step {}, {}: an edge of {}, where edges have from {}: is that angle meant?",
        *(step.number, step.title, degrees(limits.nominal), Span(*_USUAL_DEG, Kind.ANGLE)),
    )
