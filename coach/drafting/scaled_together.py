"""What of a larger or smaller tool goes with its bars as they are rolled, and not with its scale alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from coach.drafting.scaled import Changes, about, limits_of, with_values
from coach.operations import Does, operations
from coach.quantities.units import System


def with_what_goes_together(spelt: Mapping[str, Any], changes: Changes, unit: System) -> Changes:
    """The changes of a scale, with what its stacks are welded to and what its bars of billets come to."""
    found = {**changes}
    for name, piece in spelt["pieces"].items():
        anew = with_values(spelt, found)
        if isinstance(piece.get("stack"), Sequence):
            found |= _as_stacked(name, spelt, anew, unit)
        stock = piece.get("stock")
        if isinstance(stock, Mapping) and "from" in stock:
            found |= _as_thick_as_worked(name, str(stock["from"]), spelt, anew, unit)
    return found


def _as_stacked(
    piece: str, spelt: Mapping[str, Any], anew: Mapping[str, Any], unit: System
) -> Mapping[tuple[str | int, ...], str]:
    """A stack comes out of its first weld as its layers lie: these are rolled, not scaled."""
    zones = spelt["pieces"][piece].get("zones", [piece])
    closes = (
        at
        for at, one in enumerate(spelt["steps"])
        if one.get("zone") in zones and Does.CLOSES in operations()[str(one["do"])].DOES
    )
    at = next(closes, None)
    asked = spelt["steps"][at].get("to") if at is not None else None
    if at is None or not isinstance(asked, Mapping):
        return {}
    was, now = (_lies_mm(one["pieces"][piece]["stack"], unit) for one in (spelt, anew))
    return {
        ("steps", at, "to", name): about(
            str(told), round(limits_of(str(told), unit).nominal * now[name] / was[name], 1), unit
        )
        for name, told in asked.items()
        if was.get(name) and now.get(name)
    }


def _lies_mm(stack: Sequence[Mapping[str, Any]], unit: System) -> dict[str, float]:
    """How wide and how thick the layers lie, mm; nothing where one of them says it otherwise."""
    if any("width" not in one or "thickness" not in one for one in stack):
        return {}
    wide, thick = (
        [limits_of(str(one[name]), unit).nominal for one in stack] for name in ("width", "thickness")
    )
    return {"width": min(wide), "thickness": sum(thick)}


def _as_thick_as_worked(
    piece: str, billet: str, spelt: Mapping[str, Any], anew: Mapping[str, Any], unit: System
) -> Mapping[tuple[str | int, ...], str]:
    """A billet is drawn as thick as what is made of it is forged, which keeps what the stone takes."""
    zones = spelt["pieces"][piece].get("zones", [piece])
    told = spelt["drawing"].get(billet, {}).get("thickness")
    if told is None:
        return {}
    was_mm = limits_of(str(told), unit).nominal
    drawn = str(anew["drawing"][billet]["thickness"])
    thick_mm = limits_of(drawn, unit).nominal
    for before, after in zip(spelt["steps"], anew["steps"], strict=True):
        asked, now = before.get("to"), after.get("to")
        if before.get("zone") not in zones or not isinstance(asked, Mapping) or "thickness" not in asked:
            continue
        if limits_of(str(asked["thickness"]), unit).nominal <= was_mm:
            thick_mm = max(thick_mm, limits_of(str(now["thickness"]), unit).nominal)
    return {("drawing", billet, "thickness"): about(drawn, thick_mm, unit)}
