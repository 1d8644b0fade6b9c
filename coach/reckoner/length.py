"""How long a bar must be cut to be bent into a ring or round corners."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, NamedTuple

from coach.quantities import Shown, write_angle, write_length
from coach.reckoner.asking import NotReckoned

#: What one weld of a ring takes, in thicknesses of the bar: ends upset and scarfed, and scarfed without
#: upsetting (judgement, between 1/3 of a thickness and 1 in the handbooks).
UPSET_WELD: Final = 1.0
PLAIN_WELD: Final = 0.4

#: Turned further than this, the corner that outside legs are measured to lies too far off to measure.
STEEPEST_DEG: Final = 150.0


class LengthPartView(NamedTuple):
    """One part of a length to cut."""

    label: str  # what it is for
    length: float  # how long it is
    text: str


class LengthView(NamedTuple):
    """A length to cut, with what it is made up of."""

    kind: str  # ring or bend
    stock: float  # the thickness that is bent
    stock_text: str
    parts: tuple[LengthPartView, ...]  # parts
    length: float  # all of them together
    text: str
    remarks: tuple[str, ...]  # sentences on what was assumed


def ring_length(inside_mm: float, stock_mm: float, weld_mm: float, shown: Shown) -> LengthView:
    """The length of bar for a ring: π (D + t) + the weld, D the inside diameter and t the thickness, in mm.

    The mean diameter is what is neither stretched nor squeezed. Raises NotReckoned when the weld takes as
    much as the ring. Sources: the rule, T. F. Googerty, Hand Forging, p. 69 (confirmed).

    >>> ring_length(100, 12, 12, Shown()).text
    '364 mm'
    """
    around_mm = math.pi * (inside_mm + stock_mm)
    if weld_mm >= around_mm:
        raise NotReckoned(
            f"A weld that takes {write_length(weld_mm, shown)} is as long as the ring, "
            f"{write_length(around_mm, shown)} round; give a shorter allowance."
        )
    parts = [_part("round the middle of the bar", around_mm, shown)]
    remarks: tuple[str, ...] = ()
    if weld_mm > 0.0:
        parts.append(_part("for the weld", weld_mm, shown))
    else:
        upset, plain = (write_length(share * stock_mm, shown) for share in (UPSET_WELD, PLAIN_WELD))
        unwelded = (
            f"Nothing is added for a weld; it takes about {upset} where the ends are upset and scarfed, and "
            f"{plain} where they are only scarfed (judgement)."
        )
        remarks = (unwelded,)
    if inside_mm < stock_mm * 2.0:
        remarks += (_SHARP,)
    return _view("ring", stock_mm, parts, remarks, shown)


def bend_length(
    legs_mm: Sequence[float], inside_radius_mm: float, angle_deg: float, stock_mm: float, shown: Shown
) -> LengthView:
    """The length of bar for legs with a bend between each two and the next: L = Σ straight + n θ (R + t/2).

    Legs are outside sizes in mm, to the corner where the outsides meet; each bend takes (R + t) tan(θ/2)
    from either leg, R the inside radius and θ how far the bar is turned. The middle of the bar keeps its
    length where R is at least t (from memory). Raises NotReckoned for fewer than two legs, for an angle
    above STEEPEST_DEG and for a leg shorter than its bends.

    >>> round(bend_length([100, 60], 10, 90, 10, Shown()).length, 3)
    143.562
    """
    if len(legs_mm) < 2:
        raise NotReckoned("A bend lies between two legs: give the outside length of each, as in 100 60.")
    if not 0.0 < angle_deg <= STEEPEST_DEG:
        raise NotReckoned(
            f"A bend of {write_angle(angle_deg)} has no corner that its legs can be measured to; give an "
            f"angle of at most {write_angle(STEEPEST_DEG)}, how far the bar is turned from straight."
        )
    turned = math.radians(angle_deg)
    taken_mm = (inside_radius_mm + stock_mm) * math.tan(turned / 2.0)
    parts = []
    for number, leg_mm in enumerate(legs_mm, start=1):
        bends = 1 if number in (1, len(legs_mm)) else 2
        straight_mm = leg_mm - bends * taken_mm
        if straight_mm < 0.0:
            words = "bend takes" if bends == 1 else "two bends take"
            taken = f"{words}, {write_length(bends * taken_mm, shown)}"
            raise NotReckoned(
                f"Leg {number} of {write_length(leg_mm, shown)} is shorter than its {taken}; give a longer "
                "leg or a smaller radius."
            )
        parts.append(_part(f"straight of leg {number}", straight_mm, shown))
    count = len(legs_mm) - 1
    around_mm = count * turned * (inside_radius_mm + stock_mm / 2.0)
    bends_told = "bend" if count == 1 else f"{count} bends"
    parts.append(_part(f"round the {bends_told} of {write_angle(angle_deg)}", around_mm, shown))
    return _view("bend", stock_mm, parts, (_SHARP,) if inside_radius_mm < stock_mm else (), shown)


_SHARP: Final = (
    "Bent more sharply than its own thickness, a bar stretches at the bend: try it on scrap of the same bar "
    "first."
)


def _part(label: str, length_mm: float, shown: Shown) -> LengthPartView:
    return LengthPartView(label, length_mm, write_length(length_mm, shown))


def _view(
    kind: str, stock_mm: float, parts: Sequence[LengthPartView], remarks: tuple[str, ...], shown: Shown
) -> LengthView:
    length_mm = math.fsum(part.length for part in parts)
    return LengthView(
        kind,
        stock_mm,
        write_length(stock_mm, shown),
        tuple(parts),
        length_mm,
        write_length(length_mm, shown),
        remarks,
    )
