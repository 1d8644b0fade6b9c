"""Weighs which end of a taper is which: the thick and the thin end are easily exchanged in a line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from coach.forms import said
from coach.ledger.plan import Plan
from coach.ledger.working import reshapes
from coach.operations import operation
from coach.quantities import Limits, Words, mm, say
from coach.recipe.model import Step

#: Across what a taper is drawn down; a width may well be spread towards an end.
_DRAWN_DOWN: Final = ("thickness", "diameter", "side", "across_flats")
#: An end counts as the thicker one from this share on (judgement).
_THICKER_SHARE: Final = 0.05


class Ends(NamedTuple):
    """What a taper is across where it meets its neighbour, and at its other end."""

    dimension: str
    near_mm: float
    far_mm: float

    @property
    def rises(self) -> bool:
        """Whether the far end is the thicker one."""
        return self.far_mm > self.near_mm * (1.0 + _THICKER_SHARE)

    @property
    def falls(self) -> bool:
        """Whether the far end is the thinner one."""
        return self.near_mm > self.far_mm * (1.0 + _THICKER_SHARE)


def ends_in(limits: Mapping[str, Limits]) -> Ends | None:
    """The ends of a taper, of those sizes; None of what is no taper."""
    for name in _DRAWN_DOWN:
        if name in limits and f"end_{name}" in limits:
            return Ends(name, limits[name].nominal, limits[f"end_{name}"].nominal)
    return None


def exchanged_ends(plan: Plan) -> Iterator[tuple[Step, str, Words]]:
    """The first step on each zone that makes its taper run the other way than it is drawn.

    Not of a zone that is upset later: what is gathered there may turn it round.
    """
    for zone, way in plan.stages.items():
        drawn = ends_in(plan.recipe.drawing[zone].limits)
        if drawn is None or not (drawn.rises or drawn.falls):
            continue
        gathers = [stage.step.number for stage in way if operation(stage.step.operation).GATHERS]
        for stage in way:
            made = ends_in(stage.step.targets) if reshapes(stage.step, zone) else None
            if made is None or made.dimension != drawn.dimension:
                continue
            if stage.step.number < max(gathers, default=0):
                continue
            if (made.rises and drawn.falls) or (made.falls and drawn.rises):
                yield stage.step, zone, _words(zone, made, drawn)
                break


def _words(zone: str, made: Ends, drawn: Ends) -> Words:
    return say(
        "here {} has a {} of {} at its near end and {} at its far end, and it is drawn the other way round, "
        "{} to {}: are the two ends exchanged? The first size is where it meets its neighbour.",
        zone,
        said(made.dimension),
        *map(mm, (made.near_mm, made.far_mm, drawn.near_mm, drawn.far_mm)),
    )


def thick_at_its_free_end(plan: Plan, zone: str) -> Words | None:
    """A drawn taper with a free end that is thicker there than where it meets its neighbour."""
    piece, ends = plan.recipe.piece_of(zone), ends_in(plan.recipe.drawing[zone].limits)
    if ends is None or not ends.rises or piece.zones[0] == piece.zones[-1]:
        return None
    if zone not in (piece.zones[0], piece.zones[-1]):
        return None
    return say(
        "{} is drawn with a {} of {} where it meets its neighbour and {} at its free end: are the two ends "
        "exchanged? The first size is where it meets its neighbour.",
        zone,
        said(ends.dimension),
        mm(ends.near_mm),
        mm(ends.far_mm),
    )
