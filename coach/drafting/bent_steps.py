"""What makes the forms that are bent, rolled, split or closed out of their bar: operations in their order."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from coach.drafting.proposed import SAME_SHARE, Proposed, how_to_draw
from coach.fire.limits import common_range
from coach.forms.uneven_fork import UnevenFork
from coach.ledger.working import face_loss_mm
from coach.metals.grade import grade
from coach.operations.does import HeatKind
from coach.quantities.units import System
from coach.recipe.limits_written import size_text
from coach.recipe.model import Piece, Scale, ZoneDrawing

#: Bars of a section with four corners.
_RECTANGLES: Final = ("flat", "square")
#: How long a scarf is, in thicknesses of what is scarfed (common practice, no source).
_SCARF_OF_THICKNESS: Final = 1.5
#: What is only bent is bent at less than the heat it is forged at (common practice, no source).
_BENT: Final = ", at orange"
_BENT_AT_C: Final = 1000.0  # about that colour (judgement)
#: A thin plate is cold soon; one that is no thicker than the wall has no scale to give (judgement).
_ROLL_HEATS: Final = 3
_FEW_ROLL_HEATS: Final = 2
#: A chisel cuts a little of what it splits out of line, and its heats scale both faces (judgement).
_SPLIT_SHARE: Final = 0.97
#: A weld is begun so far up from the least that takes towards the most that the metal stands (judgement).
_WELD_SHARE: Final = 0.5


def made_ready(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """What brings the bar to the section that is bent afterwards; nothing where it has it."""
    sizes, stock = drawn.sizes_mm, piece.stock.sizes_mm
    if "diameter" in sizes:
        section, same = f"round {size_text(sizes['diameter'], unit)}", _alike([sizes["diameter"]], stock)
        same = same and piece.stock.shape.kind == "round"
        wide_mm = sizes["diameter"]
    else:
        wall_mm = (sizes.get("outer_diameter", 0.0) - sizes.get("inner_diameter", 0.0)) / 2.0
        wide_mm = sizes.get("width", wall_mm)
        across = sorted([wide_mm, sizes.get("thickness", wide_mm)], reverse=True)  # a hoop stands on its edge
        section = f"{size_text(across[0], unit)} x {size_text(across[1], unit)}"
        same = _alike(across, stock) and piece.stock.shape.kind in _RECTANGLES
    if same:
        return
    spreads = "width" in stock and wide_mm > (1.0 + SAME_SHARE) * max(stock.values())
    work = "spread" if spreads else "draw"
    yield Proposed(work, f"{drawn.zone}, {section}, long free", (("how", how_to_draw(spreads)),))


def _alike(across: list[float], stock: object) -> bool:
    bar = sorted(stock.values()) if isinstance(stock, dict) else []
    bar = bar * 2 if len(bar) == 1 and len(across) == 2 else bar
    pairs = zip(sorted(across), bar, strict=False)
    return len(across) == len(bar) and all(abs(one - other) <= SAME_SHARE * other for one, other in pairs)


def scrolled(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A bar drawn to its section and curled up."""
    yield from made_ready(piece, drawn, unit)
    yield Proposed("scroll", f"{drawn.zone}, {drawn.shape.kind}{_BENT}", (("how", _SCROLL),))


def wound(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A bar drawn round and wound up."""
    yield from made_ready(piece, drawn, unit)
    yield Proposed("coil", f"{drawn.zone}{_BENT}", (("how", _COIL), ("watch", _COIL_WATCH)))


def socketed(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A fan as wide as the middle of the wall is round, and rolled."""
    sizes = drawn.sizes_mm
    bar_mm = min(piece.stock.sizes_mm.values())
    heats = _ROLL_HEATS if bar_mm > sizes["wall"] * (1.0 + SAME_SHARE) else _FEW_ROLL_HEATS
    wall_mm = sizes["wall"] + 2 * heats * face_loss_mm(Scale(), HeatKind.FORGING, _BENT_AT_C)
    wall_mm = min(wall_mm, max(bar_mm, sizes["wall"]))
    mouth_mm, neck_mm = (math.pi * (sizes[name] - wall_mm) for name in ("mouth_diameter", "end_diameter"))
    wall, mouth, neck = (size_text(round(size, 2), unit) for size in (wall_mm, mouth_mm, neck_mm))
    even = abs(mouth_mm - neck_mm) <= SAME_SHARE * mouth_mm
    as_bar = even and _alike([mouth_mm, wall_mm], piece.stock.sizes_mm)
    if not (as_bar and piece.stock.shape.kind in _RECTANGLES):
        to = f"{mouth} x {wall}" if even else f"{neck} x {wall} tapering to {mouth} x {wall}"
        wider = mouth_mm > max(piece.stock.sizes_mm.values())
        keys = (("how", how_to_draw(wider)),)
        yield Proposed("spread" if wider else "draw", f"{drawn.zone}, {to}, long free", keys)
    yield Proposed("roll", f"{drawn.zone}, {heats} heats{_BENT}", (("how", _ROLL),))


def closed(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A ring or a link: bent round, and welded where it is a piece of its own."""
    yield from made_ready(piece, drawn, unit)
    yield Proposed("bend", f"{drawn.zone}, {drawn.shape.kind}, 2 heats{_BENT}", (("how", _RING),))
    if len(piece.zones) == 1:
        sizes = drawn.sizes_mm
        yield from _welded(
            piece, drawn, min(sizes.get(one, math.inf) for one in ("diameter", "thickness")), unit
        )


def eyed_strap(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A bar folded round to an eye, its lap welded."""
    yield from made_ready(piece, drawn, unit)
    scarf, *weld = _welded(piece, drawn, drawn.sizes_mm["thickness"], unit)
    yield scarf
    yield Proposed("fold", f"{drawn.zone}, {drawn.shape.kind}{_BENT}", (("how", _FOLD),))
    yield from weld


def _welded(piece: Piece, drawn: ZoneDrawing, thick_mm: float, unit: System) -> Iterator[Proposed]:
    scarf = size_text(float(round(_SCARF_OF_THICKNESS * thick_mm)) if unit == "mm" else 1.5 * thick_mm, unit)
    yield Proposed("scarf", f"{drawn.zone}, scarf long {scarf}, 1 heat{_BENT}", (("how", _SCARF),))
    together = common_range([grade(metal) for metal in piece.shares], welding=True)
    low, high = together.low, together.high or together.ceiling
    at = ""
    if low is not None and high is not None:
        at_c = low.value + _WELD_SHARE * max(high.value - low.value, 0.0)
        at = f", at {round(at_c, -1):.0f} °C"
    yield Proposed(
        "weld shut",
        f"{drawn.zone}, heats 1 weld + 1 close{at}",
        (("how", _WELD), ("watch", _WELD_WATCH), ("flux", "borax, before each heat")),
    )


def forked(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A bar split by the share of metal that each branch wants, and both drawn."""
    bar_mm = max(piece.stock.sizes_mm.values())
    if piece.stock.shape.kind not in _RECTANGLES:  # two halves of it would be no rectangles
        section = piece.stock.shape.draft({**piece.stock.sizes_mm, "length": 1.0})
        bar_mm = round(math.sqrt(section.volume_mm3()), 1)
        yield Proposed(
            "draw", f"{drawn.zone}, square {size_text(bar_mm, unit)}", (("how", how_to_draw(False)),)
        )
    wide_mm = _SPLIT_SHARE * bar_mm
    solid = drawn.shape.form(drawn.sizes_mm)
    share = solid.share if isinstance(solid, UnevenFork) else 0.5
    named, other = "", ""
    if isinstance(solid, UnevenFork):
        named = f", {drawn.shape.kind}"
        other = f", other tine {size_text(round((1.0 - share) * wide_mm, 1), unit)}"
    tine = size_text(round(share * wide_mm, 1) if unit == "mm" else share * wide_mm, unit)
    yield Proposed("split", f"{drawn.zone}{named}, tine {tine}{other}", (("how", _SPLIT),))
    yield Proposed("draw", drawn.zone, (("how", _TINES),))


def twisted_taper(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A taper first, and turned."""
    sizes = drawn.sizes_mm
    thick, end_wide = sizes.get("thickness", sizes["width"]), sizes.get("end_width", sizes["width"])
    end_thick = sizes.get("end_thickness", thick)
    first, end = (
        " x ".join(size_text(size, unit) for size in both)
        for both in ((sizes["width"], thick), (end_wide, end_thick))
    )
    yield Proposed("taper", f"{drawn.zone}, {first} to {end}", (("how", _TAPER),))
    yield Proposed("twist", f"{drawn.zone}, {drawn.shape.kind}{_BENT}", (("how", _TWIST),))


def headed(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A rivet or a tenon: its shank, and its head over what it holds."""
    yield from made_ready(piece, drawn, unit)
    yield Proposed("rivet", f"{drawn.zone}{_BENT}", (("how", _HEAD),))


def collared(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """A flat bar closed round what it holds."""
    yield from made_ready(piece, drawn, unit)
    yield Proposed("collar", f"{drawn.zone}{_BENT}", (("how", _COLLAR),))


_SCROLL: Final = "A small eye over the far edge with light blows, then roll it up; try it on the drawing."
_COIL: Final = "A hook at its end holds the mandrel; wind turn beside turn, then open the turns to the rule."
_COIL_WATCH: Final = "Wind it at one even heat: where it is hotter it draws thin and winds tighter."
_ROLL: Final = "Hollow it in the swage from the mouth inwards, then close both rims over the mandrel."
_RING: Final = "Both ends over the horn first, then the middle; all in one plane."
_FOLD: Final = "Round over the horn from its end, then over the mandrel, until the lap lies on the bar."
_SCARF: Final = "Thin and crowned, so that the middle touches first and drives the flux out."
_WELD: Final = "The lap in the heart of the fire; quick light blows first, then firm ones, and round it up."
_WELD_WATCH: Final = "Sparks mean burnt metal, which must come off."
_SPLIT: Final = "A small hole where it ends, then the hot chisel from it outwards, from both faces."
_TINES: Final = "Opened until the hammer has room; from the crotch out, both alike in every heat."
_TAPER: Final = "Square and even, its corners left sharp: a twist shows every flat."
_TWIST: Final = "The thin end turns first: keep it darker, and turn it in one go between vice and wrench."
_HEAD: Final = "Straight down first, until it fills its hole, then round it over from its rim."
_COLLAR: Final = "Bent to a U on the mandrel, then closed hot over the bars with quick light blows."
