"""Steel welded in a cleft: as far as it stands out of it, it is thinner than the zone that holds it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from coach.forms import Form, form_kind
from coach.ledger.working import ZoneState
from coach.operations.shape import Shape
from coach.recipe.model import Step

#: Of anything between two limits, the middle is expected, and the standard deviation is 1/√12 of what lies
#: between them (JCGM 100:2008 §4.3.7, from memory).
_MIDDLE_SHARE: Final = 0.5
_EVEN_SHARE: Final = 12.0**-0.5


def stands_out_mm(
    step: Step, steel: Form, welded: Form, shape: Shape, shapes_ahead: Iterable[Shape]
) -> float:
    """How much longer a zone is with its steel standing out as it was laid, than beaten to one section, mm.

    Its width and thickness are read where the iron holds the steel. Nothing where the form that the weld
    leaves says how thick its end is, and where no step ahead makes such a form of it: there the steel is as
    thick as the zone, or its drawing would not be met.

    Args:
        step: the weld.
        steel: as it is laid, its thicker end standing out.
        welded: what the weld makes of both, beaten to one section.
        shape: that of the zone after it.
        shapes_ahead: what the steps after it make of the zone.
    """
    inset_mm = step.amounts.get("inset_mm")
    if inset_mm is None or _says_its_end(shape) or not any(_says_its_end(one) for one in shapes_ahead):
        return 0.0
    long_mm = steel.length_mm
    out_mm, area_mm2 = long_mm - inset_mm, max(welded.end_area_mm2("start"), welded.end_area_mm2("finish"))
    if out_mm <= 0.0:
        return 0.0
    thick_mm2 = max(steel.section(at).area_mm2 for at in (0.5 * out_mm, long_mm - 0.5 * out_mm))
    return out_mm * max(0.0, 1.0 - thick_mm2 / area_mm2)


def _says_its_end(shape: Shape) -> bool:
    return "end_thickness" in shape.dimensions or form_kind(shape.kind).STATIONS


def read_longer_mm(state: ZoneState) -> float:
    """How much longer a zone is expected to be read than its metal is in one section, mm."""
    return expected_share_mm(state.stands_out_mm)


def expected_share_mm(out_mm: float) -> float:
    """What is expected of it, mm: any of it may have been beaten to the zone's section already."""
    return _MIDDLE_SHARE * out_mm


def read_longer_doubt_mm(state: ZoneState) -> float:
    """The standard uncertainty of that, mm."""
    return _EVEN_SHARE * state.stands_out_mm


def by_steel_mm(state: ZoneState, dimension: str) -> float:
    """The same where a size is the one that it lengthens; nothing elsewhere."""
    return read_longer_doubt_mm(state) if dimension == state.free else 0.0
