"""What makes a plate and what is sunk from one: spread, cut round, dished."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.drafting.proposed import SAME_SHARE, Proposed, how_to_draw
from coach.forms.bowl import Bowl
from coach.forms.disc import Disc
from coach.ledger.working import face_loss_mm
from coach.operations.does import HeatKind
from coach.quantities.units import System
from coach.recipe.limits_written import size_text
from coach.recipe.model import Piece, Scale, ZoneDrawing

#: How many heats a bowl is sunk in, and at about how many degrees (judgement).
_DISH_HEATS: Final = 4
_DISH_AT: Final = ", at yellow"
_DISH_AT_C: Final = 1000.0
#: A plate is spread so much wider than the round that is cut from it (judgement).
_BEYOND_SHARE: Final = 1.02


def disc(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A plate as wide as it is long, cut round."""
    sizes = drawn.sizes_mm
    yield from _round(piece, drawn.zone, sizes["diameter"], sizes["thickness"], unit)


def bowl(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A round plate half-way between what is stretched least and what is drawn in least, and sunk."""
    sizes = drawn.sizes_mm
    solid = Bowl(sizes["across"], sizes["depth"], sizes["wall"])
    loss_mm = _DISH_HEATS * face_loss_mm(Scale(), HeatKind.FORGING, _DISH_AT_C)
    held_mm3 = solid.volume_mm3() + loss_mm * solid.side_surface_mm2()
    across_mm = (solid.across_mm + solid.blank_mm()) / 2
    across_mm = float(round(across_mm)) if unit == "mm" else across_mm
    thick_mm = Disc(across_mm, 1.0).solved("thickness", held_mm3).thickness_mm
    yield from _round(piece, drawn.zone, across_mm, round(thick_mm, 1), unit)
    yield Proposed("dish", f"{drawn.zone}, {_DISH_HEATS} heats{_DISH_AT}", (("how", _DISH), ("watch", _THIN)))


def _round(piece: Piece, zone: str, across_mm: float, thick_mm: float, unit: System) -> Iterator[Proposed]:
    plate_mm = _BEYOND_SHARE * across_mm
    plate_mm = float(round(plate_mm)) if unit == "mm" else plate_mm
    stock = sorted(piece.stock.sizes_mm.values(), reverse=True)
    as_bar = len(stock) > 1 and across_mm <= stock[0] and abs(stock[1] - thick_mm) <= SAME_SHARE * thick_mm
    across, thick, plate = (size_text(one, unit) for one in (across_mm, thick_mm, plate_mm))
    if not as_bar:
        spreads = plate_mm > stock[0]
        keys = (("how", how_to_draw(spreads)),)
        yield Proposed("spread" if spreads else "draw", f"{zone}, {plate} x {thick}, long free", keys)
    yield Proposed("cut round", f"{zone}, disc, diameter {across}", (("how", _CUT),))


_CUT: Final = "The circle struck from the evenest place; short bites of the shears, and file the rim."
_DISH: Final = (
    "The ball of the hammer over the hollow, from the rim inwards in rings; smooth it over a stake."
)
_THIN: Final = "It thins most a third of the way in: measure there. Knock down a fold before it closes."
