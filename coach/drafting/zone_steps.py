"""What makes each form of a zone out of its bar: the operations, in their order, with what they work to."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from math import ceil
from typing import Final, NamedTuple

from coach.drafting import bent_steps, plate_steps
from coach.drafting.answers import CannotDraft
from coach.drafting.proposed import DRAW, SAME_SHARE, SPREAD, Proposed
from coach.fire.upsetting import FREE_LENGTHS
from coach.forms import listed
from coach.forms.row_of_holes import COUNTS
from coach.quantities import mm
from coach.quantities.units import System
from coach.recipe.limits_written import limits_text, size_text
from coach.recipe.model import Piece, ZoneDrawing
from coach.recipe.shape_words import SQUARE, across
from coach.recipe.shapes import bar_kinds

#: An eye thinner than this share of its bar is thinned before it is punched (judgement).
_THINNED_SHARE: Final = 0.9
#: From here on a zone is gathered up before it is worked (judgement).
_FULLER_SHARE: Final = 0.02
#: A hexagon's area in squares of its width across flats, √3/2 (by definition); an octagon's is near it.
_OF_HEXAGON: Final = 0.866
#: What scale and spare take more of a bar that is gathered up (judgement).
_SPARE_SHARE: Final = 0.15
#: More heats than this no step of a recipe has (our choice).
_MOST_HEATS: Final = 99
#: A hole no wider than this is punched to its size at once (common practice, no source), mm.
_PUNCHED_AT_ONCE_MM: Final = 12.0
#: A slot is punched so much shorter and narrower than the hole that it is drifted to (judgement).
_SLOT_LENGTH_SHARE, _SLOT_WIDTH_SHARE = 0.9, 0.45
#: How thick the slug is that a punch takes out, mm (common practice, no source).
_SLUG_MM, _SMALL_SLUG_MM = 5.0, 3.0


class Sections(NamedTuple):
    """How a zone's section compares with its bar's."""

    fuller: float  # its area, in areas of the bar
    wide: float  # its widest size, in the bar's widest
    thick: float  # its thinnest size, in the bar's thinnest
    bar_thick_mm: float
    length_mm: float


def zone_steps(piece: Piece, drawn: ZoneDrawing, unit: System) -> list[Proposed]:
    """The steps that make a zone; none where the bar has its section already.

    Raises CannotDraft for a form that nothing is proposed for.
    """
    kind = drawn.shape.kind
    make = _BARS if kind in bar_kinds() else _MAKES.get(kind)
    if make is None:
        known = listed([*bar_kinds(), *_MAKES], "or")
        raise CannotDraft(
            f"No steps are proposed for a {kind} yet, which {drawn.zone} is: give it as {known}, "
            f"and work it over in the file."
        )
    return list(make(piece, drawn, unit))


def _compared(piece: Piece, drawn: ZoneDrawing) -> Sections:
    stock = piece.stock
    bar = [stock.sizes_mm[name] for name in _ACROSS if name in stock.sizes_mm]
    sizes = drawn.sizes_mm
    zone = [sizes[name] for name in _ACROSS if name in sizes]
    fuller = _area(sizes) / _area(stock.sizes_mm)
    return Sections(fuller, max(zone) / max(bar), min(zone) / min(bar), min(bar), sizes.get("length", 0.0))


_ACROSS: Final = ("width", "thickness", "side", "diameter", "across_flats")


def _area(sizes: Mapping[str, float]) -> float:
    if "width" in sizes and "thickness" in sizes:
        return sizes["width"] * sizes["thickness"]
    if "side" in sizes:
        return sizes["side"] ** 2
    if "across_flats" in sizes:
        return _OF_HEXAGON * sizes["across_flats"] ** 2
    return math.pi / 4.0 * sizes.get("diameter", 0.0) ** 2


def _gathered(found: Sections, zone: str, section: str) -> Iterator[Proposed]:
    """The upset that a section fuller than its bar begins with."""
    if found.fuller <= 1.0 + _FULLER_SHARE:
        return
    long_mm = found.length_mm * found.fuller * (1.0 + _SPARE_SHARE)
    heats = max(2, ceil(long_mm / (FREE_LENGTHS * found.bar_thick_mm)))
    if heats > _MOST_HEATS:
        raise CannotDraft(
            "The bar is {} thick, and gathering the {} of it would take some {} heats: give a bar nearer to "
            "it.",
            *(mm(found.bar_thick_mm), zone, f"{heats}"),
        )
    remark = (
        f"The bar is thinner than the {zone}: gathered up, no more than three thicknesses of it in a heat."
    )
    line = f"{zone}{f', {section}' if section else ''}, {heats} heats"
    yield Proposed(
        "upset", line, (("how", "Short heats, each on its own part; straighten what bends at once."),), remark
    )


def _bar(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    found = _compared(piece, drawn)
    same = piece.stock.shape.kind == drawn.shape.kind and all(
        abs(size - piece.stock.sizes_mm.get(name, size)) <= SAME_SHARE * size
        for name, limits in drawn.limits.items()
        if name != "length"
        for size in (limits.nominal,)
    )
    if same:
        return
    gathered = list(_gathered(found, drawn.zone, ""))
    if gathered:
        yield from gathered
    elif found.wide > 1.0 + SAME_SHARE and "width" in drawn.limits:
        yield Proposed("spread", drawn.zone, (("how", SPREAD),))
    else:
        yield Proposed("draw", drawn.zone, (("how", DRAW),))


def _taper(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    found = _compared(piece, drawn)
    limits = drawn.limits
    yield from _gathered(found, drawn.zone, root_section(drawn, unit))
    end, width = limits.get("end_width"), limits.get("width")
    spreads = end is not None and width is not None and end.nominal > (1.0 + SAME_SHARE) * width.nominal
    spreads = spreads or (found.wide > 1.0 + SAME_SHARE and found.fuller <= 1.0 + _FULLER_SHARE)
    if spreads:
        yield Proposed("spread", f"{drawn.zone}, long free", (("how", SPREAD),))
    else:
        yield Proposed("taper", drawn.zone, (("how", _TAPER),))


def root_section(drawn: ZoneDrawing, unit: System) -> str:
    """The section where a taper meets its neighbour, as a step says it."""
    sizes = {name: size_text(limits.nominal, unit) for name, limits in drawn.limits.items()}
    if "width" in sizes and "thickness" in sizes:
        return f"{sizes['width']} x {sizes['thickness']}"
    for form, name in across().items():
        if name in sizes:
            return f"{form} {sizes[name]}"
    return ""


def _profile(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    found = _compared_profile(piece, drawn)
    yield Proposed("spread" if found > 1.0 + SAME_SHARE else "draw", drawn.zone, (("how", _PROFILE),))


def _compared_profile(piece: Piece, drawn: ZoneDrawing) -> float:
    bar = [piece.stock.sizes_mm[name] for name in _ACROSS if name in piece.stock.sizes_mm]
    widest = max(share for _, share, _ in drawn.shape.stations) if drawn.shape.stations else 1.0
    return widest * drawn.limits["width"].nominal / max(bar) if "width" in drawn.limits else 1.0


def _eyed(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    limits, options = drawn.limits, drawn.shape.options
    bar = [piece.stock.sizes_mm[name] for name in _ACROSS if name in piece.stock.sizes_mm]
    zone, depth = drawn.zone, options.get("through", "thickness")
    slug_mm = min(_SMALL_SLUG_MM, limits["thickness"].nominal)
    if depth == "thickness":
        yield from _made_ready(drawn, bar, unit)
    hole_l, hole_w = limits["hole_length"].nominal, limits.get("hole_width", limits["hole_length"]).nominal
    through = f" through its {depth}"
    free = ", thick free" if depth == "width" else ""  # the cheeks go the way that the hole opens
    if max(hole_l, hole_w) <= _PUNCHED_AT_ONCE_MM:
        yield Proposed("punch", f"{zone}, slug {size_text(slug_mm, unit)}", (("how", _PUNCH),))
        return
    slot = f"slot hole {_size(_SLOT_LENGTH_SHARE * hole_l, unit)} x {_size(_SLOT_WIDTH_SHARE * hole_w, unit)}"
    slug = size_text(_SLUG_MM, unit)
    yield Proposed(
        "punch", f"{zone}, {slot}{through}, slug {slug}{free}", (("how", _PUNCH), ("watch", _PUNCH_WATCH))
    )
    yield Proposed(
        "drift", _opened(drawn, unit) if free else zone, (("how", _DRIFT), ("watch", _DRIFT_WATCH))
    )


def _pierced(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    """The bar first, and then its holes alone: they leave the section as it is."""
    yield from bent_steps.made_ready(piece, drawn, unit)
    mouth = [limits_text(drawn.limits[name], unit) for name in drawn.limits if name.startswith("hole_")]
    shape = drawn.shape.options.get("hole", "round")
    if shape == "rectangle" and mouth[0] == mouth[-1]:
        shape, mouth = SQUARE, mouth[:1]
    row = f"{drawn.shape.options.get('holes', COUNTS[0])} {shape} holes {' x '.join(mouth)}"
    slug_mm = min(_SMALL_SLUG_MM, drawn.limits["thickness"].nominal)
    yield Proposed("pierce", f"{drawn.zone}, {row}, slug {size_text(slug_mm, unit)}", (("how", _PUNCH),))


def _made_ready(drawn: ZoneDrawing, bar: list[float], unit: System) -> Iterator[Proposed]:
    """What brings a bar to the thickness of its eye, as wide as punching then leaves it as long as drawn."""
    sizes = drawn.sizes_mm
    thick_mm, long_mm = sizes["thickness"], sizes["length"]
    wide_mm = drawn.shape.form(sizes).volume_mm3() / (long_mm * thick_mm)
    section = f"{size_text(round(wide_mm, 1), unit)} x {size_text(thick_mm, unit)}"
    if thick_mm > (1.0 + SAME_SHARE) * min(bar):
        fuller = max(wide_mm, *bar) * thick_mm / _area_of(bar)
        found = Sections(fuller, 1.0, 1.0, min(bar), long_mm)
        wide = f"{size_text(round(max(wide_mm, *bar), 1), unit)} x {size_text(thick_mm, unit)}"
        yield from _gathered(found, drawn.zone, wide)
    elif thick_mm < _THINNED_SHARE * min(bar):
        spreads = wide_mm > (1.0 + SAME_SHARE) * max(bar)
        keys = (("how", SPREAD if spreads else DRAW),)
        yield Proposed("spread" if spreads else "draw", f"{drawn.zone}, {section}, long free", keys)


def _area_of(bar: list[float]) -> float:
    return max(bar) * min(bar)


def _opened(drawn: ZoneDrawing, unit: System) -> str:
    """An eye through its width with each size said: its thickness is what the cheeks spread to."""
    told = {name: limits_text(limits, unit) for name, limits in drawn.limits.items()}
    mouths = [f"{told['hole_length']} x {told['hole_width']}"]
    if told.get("far_hole_length", told["hole_length"]) != told["hole_length"]:
        mouths.append(f"{told['far_hole_length']} x {told['far_hole_width']}")
    hole = f"{drawn.shape.options['hole']} hole {' flaring to '.join(mouths)} through its width"
    return f"{drawn.zone}, wide {told['width']}, {hole}, long {told['length']}, thick free"


def _side_bevel(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    yield Proposed("side bevel", drawn.zone, (("how", _SIDE_BEVEL), ("watch", _EDGE_WATCH)))


def _twisted(piece: Piece, drawn: ZoneDrawing, unit: System) -> Iterator[Proposed]:
    yield from bent_steps.made_ready(piece, drawn, unit)
    yield Proposed("twist", drawn.zone, (("how", _TWIST),))


def _size(size_mm: float, unit: System) -> str:
    """A size for the hand: whole millimetres."""
    return size_text(float(round(size_mm)) if unit == "mm" else size_mm, unit)


_Make = Callable[[Piece, ZoneDrawing, System], Iterator[Proposed]]
_BARS: Final[_Make] = _bar
_MAKES: Final[dict[str, _Make]] = {
    "taper": _taper,
    "round taper": _taper,
    "eyed": _eyed,
    "pierced bar": _pierced,
    "slotted bar": _pierced,
    "disc": plate_steps.disc,
    "bowl": plate_steps.bowl,
    "profile": _profile,
    "side bevel": _side_bevel,
    "twisted bar": _twisted,
    "twisted taper": bent_steps.twisted_taper,
    "scroll": bent_steps.scrolled,
    "round scroll": bent_steps.scrolled,
    "coil": bent_steps.wound,
    "socket": bent_steps.socketed,
    "ring": bent_steps.closed,
    "round ring": bent_steps.closed,
    "link": bent_steps.closed,
    "strap eye": bent_steps.eyed_strap,
    "fork": bent_steps.forked,
    "uneven fork": bent_steps.forked,
    "rivet": bent_steps.headed,
    "collar": bent_steps.collared,
}

_TAPER: Final = "A short end first, at the far edge of the anvil, then back to the mark; square to the last."
_PROFILE: Final = "To the drawing at every station, the thickest first; lay it on the template each heat."
_PUNCH: Final = (
    "Half through from one face, turn it over on the dark spot, and drive the slug out over the hole."
)
_PUNCH_WATCH: Final = "A punch left in the hole goes soft. Cool it every few blows."
_DRIFT: Final = "From both faces in turn, and dress the cheeks with the drift standing in the eye."
_DRIFT_WATCH: Final = "Both cheeks alike. Cool the one that runs thin and open the other."
_SIDE_BEVEL: Final = (
    "The flat face on the anvil; thin the edge a little each pass and set the curve back with the mallet."
)
_EDGE_WATCH: Final = "A cold edge cracks as it thins: back to the fire before its glow turns dull."
_TWIST: Final = "One even heat over its whole length, between vice and wrench, in one turning."
