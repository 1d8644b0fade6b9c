"""The finished piece as one body: its mass and where it balances about the middle of its hole."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.finish.balance import MassAt, balance_mm
from coach.forms import Form, FormError
from coach.ledger.plan import Plan, density_of, finished_form
from coach.quantities import Figure, mm

#: Slices of a zone; Simpson's rule is exact for bars and tapers, and good to a thousandth at a hole
#: (computed; our choice).
_SLICES = 32
#: Solids whose balance is kept: the plan asks again for its head and for its haft (our choice).
_KEPT = 32

NOTHING_MADE: Final[Mapping[str, Form]] = MappingProxyType({})


class Head(NamedTuple):
    """The finished piece as one body."""

    mass: Figure
    balance: Figure | None  # from the middle of the zone with the hole; None where no one zone has one
    about: str  # that zone; "" where there is none
    towards: str  # the zone at the end that it balances towards; "" where there is none


def head(plan: Plan, forms: Mapping[str, Form] = NOTHING_MADE, mass: Figure | None = None) -> Head | None:
    """Mass and balance of the piece that the others are laid on; None where several pieces are left.

    As it is drawn, but for the zones whose `forms` are given, and for the `mass` where that is known.
    Each zone's centre is where its slices balance, at its own metal's density. A bend is reckoned straight.
    """
    recipe = plan.recipe
    if len(recipe.finished) != 1:
        return None
    piece = recipe.pieces[recipe.finished[0]]
    zones = piece.finished_zones
    solids = {zone: forms.get(zone) or finished_form(recipe, zone) for zone in zones}
    weighs = plan.finished_mass if mass is None else mass
    eyes = [zone for zone in zones if recipe.drawing[zone].shape.kind == "eyed"]
    parts = []
    at = 0.0
    middle: float | None = None
    for whole in piece.zones:
        beside = piece.leaves_of(whole)  # what a zone is split into begins where that did
        long_mm = max(solids[zone].length_mm for zone in beside)
        # A zone ends away from its neighbour, so the first of several lies the other way round.
        turned = whole == piece.zones[0] and len(zones) > 1
        for zone in beside:
            solid = solids[zone]
            try:
                centre = _centre_mm(solid)
            except FormError:
                return None
            place = at + (long_mm - centre if turned else centre)
            parts.append(MassAt(solid.volume_mm3() * density_of(plan, zone), place))
            if eyes == [zone]:
                middle = at + (long_mm - solid.length_mm / 2.0 if turned else solid.length_mm / 2.0)
                # The eye reaches to both sides of its middle, so it counts half on each.
                parts[-1] = parts[-1]._replace(centre_mm=middle)
        at += long_mm
    if middle is None:
        return Head(weighs, None, "", "")
    off = balance_mm(parts) - middle
    return Head(weighs, mm(abs(off)), eyes[0], zones[-1] if off >= 0.0 else zones[0])


@lru_cache(_KEPT)
def _centre_mm(solid: Form) -> float:
    """How far from its start a solid balances, by Simpson's rule over its slices."""
    length = solid.length_mm
    areas = [solid.section(length * index / _SLICES).area_mm2 for index in range(_SLICES + 1)]
    shares = [1.0, *(4.0 if index % 2 else 2.0 for index in range(1, _SLICES)), 1.0]
    whole = sum(share * area for share, area in zip(shares, areas, strict=True))
    turned = sum(i * share * area for i, (share, area) in enumerate(zip(shares, areas, strict=True)))
    return length * turned / (whole * _SLICES)
