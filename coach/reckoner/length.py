"""How long a bar must be cut to be bent into a ring or round corners."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from enum import Enum
from typing import Final, NamedTuple

from coach.quantities import Figure, Words, as_words, degrees, mm, read_angle_deg, read_length_mm, say
from coach.quantities.errors import briefly
from coach.quantities.takes import Take, Typed, plain
from coach.reckoner.asking.reading import NotReckoned
from coach.reckoner.asking.takes import size
from coach.reckoner.asking.told import Told, rows

SUMMARY = "Tell the length to cut for a ring or for bends."
SOURCES = (
    "Sources: the mean diameter for rings, T. F. Googerty, Hand Forging, p. 69 (confirmed); the middle of "
    "the bar for bends whose inside radius is its thickness or more (from memory)."
)


class Bent(Enum):
    """What a bar is bent to."""

    RING = "ring"
    BEND = "bend"


def read_bent(text: str) -> Bent:
    """A ring or a bend; raises NotReckoned."""
    found = next((one for one in Bent if one.value == text.strip().lower()), None)
    if found is None:
        raise NotReckoned(f"{briefly(text)} is neither: a bar becomes a ring or a bend.")
    return found


TAKES = (
    Take("kind", "what the bar becomes: ring or bend", "RING_OR_BEND", plain(read_bent), needed=True),
    Take(
        "legs",
        "of a bend: the outside length of each leg, such as 100 60",
        "LEG",
        read_length_mm,
        Typed.SEVERAL,
    ),
    size("--stock", "how thick the bar is where it bends", metavar="T", needed=True),
    size("--inside", "of a ring: its inside diameter", metavar="D"),
    size("--weld", "of a ring: what its weld takes; else nothing", metavar="ALLOWANCE", may_be_nothing=True),
    size(
        "--inside-radius",
        "of a bend: its inside radius; 0 for a corner forged square, outside and inside",
        metavar="R",
        may_be_nothing=True,
    ),
    Take(
        "--angle",
        "of a bend: how far the bar is turned from straight; else 90°",
        "A",
        plain(read_angle_deg),
    ),
)

#: What one weld of a ring takes, in thicknesses of the bar: ends upset and scarfed, and scarfed without
#: upsetting (judgement, between 1/3 of a thickness and 1 in the handbooks).
UPSET_WELD: Final = 1.0
PLAIN_WELD: Final = 0.4

#: Turned further than this, the corner that outside legs are measured to lies too far off to measure
#: (judgement).
STEEPEST_DEG: Final = 150.0

_SHARP: Final = say(
    "Bent more sharply than its own thickness, a bar stretches at the bend: try it on scrap of the same bar "
    "first."
)


#: How much thicker a bar is upset where it is to be bent to a square corner: J. B. Stokes, Intermediate
#: blacksmithing, FAO Agricultural Services Bulletin 88/2, 1992, page AH635E09 (confirmed).
CORNER_UPSET: Final = 1.5
#: And what that manual adds to an outside size for each such bend, in thicknesses (confirmed; 1992).
CORNER_ADDED: Final = 0.25


class PartOfALength(NamedTuple):
    """One part of a length to cut."""

    what: Words  # what it is for
    length: Figure  # how long it is


class LengthToCut(NamedTuple):
    """A length to cut, with what it is made up of."""

    kind: Bent
    stock: Figure  # the thickness that is bent
    parts: tuple[PartOfALength, ...]
    length: Figure  # all of them together
    remarks: tuple[Words, ...]  # what was assumed


def reckon(
    kind: Bent,
    stock: float,
    legs: Sequence[float] = (),
    inside: float | None = None,
    weld: float | None = None,
    inside_radius: float | None = None,
    angle: float | None = None,
) -> LengthToCut:
    """The length of bar, in mm, of a thickness `stock`, for a ring or for legs with bends between them.

    Raises NotReckoned where a size is missing or belongs to the other.
    """
    ring = kind is Bent.RING
    other = (
        {"--inside-radius": inside_radius, "--angle": angle} if ring else {"--inside": inside, "--weld": weld}
    )
    for option, given in other.items():
        if given is not None:
            belongs = "bends" if ring else "rings"
            raise NotReckoned(f"{option} is for {belongs}: leave it out of a {kind.value}.")
    if ring and legs:
        raise NotReckoned("A ring has no legs: leave {} out.", mm(legs[0]))
    if ring:
        return ring_length(_given(inside, "--inside", "inside diameter"), stock, weld or 0.0)
    radius_mm = _given(inside_radius, "--inside-radius", "inside radius")
    return bend_length(legs, radius_mm, 90.0 if angle is None else angle, stock)


def told(answer: LengthToCut) -> Iterator[Told]:
    """The length, and what it is made up of."""
    yield say("cut {} of bar {} thick:", answer.length, answer.stock)
    yield rows((one.length, one.what) for one in answer.parts)
    yield from answer.remarks


def ring_length(inside_mm: float, stock_mm: float, weld_mm: float) -> LengthToCut:
    """The length of bar for a ring: π (D + t) + the weld, D the inside diameter and t the thickness, in mm.

    The mean diameter is what is neither stretched nor squeezed. Raises NotReckoned when the weld takes as
    much as the ring. Sources: the rule, T. F. Googerty, Hand Forging and Wrought-Iron Ornamental Work, 1911,
    p. 69 (confirmed).

    >>> round(ring_length(100, 12, 12).length.value, 1)
    363.9
    """
    around_mm = math.pi * (inside_mm + stock_mm)
    if weld_mm >= around_mm:
        too_long = "A weld that takes {} is as long as the ring, {} round; give a shorter allowance."
        raise NotReckoned(too_long, mm(weld_mm), mm(around_mm))
    parts = [PartOfALength(say("round the middle of the bar"), mm(around_mm))]
    remarks: tuple[Words, ...] = ()
    if weld_mm > 0.0:
        parts.append(PartOfALength(say("for the weld"), mm(weld_mm)))
    else:
        unwelded = say(
            "Nothing is added for a weld; it takes about {} where the ends are upset and scarfed, and {} "
            "where they are only scarfed (judgement).",
            mm(UPSET_WELD * stock_mm),
            mm(PLAIN_WELD * stock_mm),
        )
        remarks = (unwelded,)
    if inside_mm < stock_mm * 2.0:
        remarks += (_SHARP,)
    return _whole(Bent.RING, stock_mm, parts, remarks)


def bend_length(
    legs_mm: Sequence[float], inside_radius_mm: float, angle_deg: float, stock_mm: float
) -> LengthToCut:
    """The length of bar for legs with a bend between each two and the next: L = Σ straight + n θ (R + t/2).

    Legs are outside sizes in mm, to the corner where the outsides meet; each bend takes (R + t) tan(θ/2)
    from either leg, R the inside radius and θ how far the bar is turned. The middle of the bar keeps its
    length where R is at least t (from memory). Without a radius the corner is square outside and inside,
    and holds t tan(θ/2) of bar (geometry: by definition). Raises NotReckoned for fewer than two legs, for an
    angle above STEEPEST_DEG and for a leg shorter than its bends.

    >>> round(bend_length([100, 60], 10, 90, 10).length.value, 3)
    143.562
    >>> bend_length([100, 60], 0, 90, 10).length.value
    150.0
    """
    if len(legs_mm) < 2:
        raise NotReckoned("A bend lies between two legs: give the outside length of each, as in 100 60.")
    if not 0.0 < angle_deg <= STEEPEST_DEG:
        raise NotReckoned(
            "A bend of {} has no corner that its legs can be measured to; give an angle of at most {}, how "
            "far the bar is turned from straight.",
            degrees(angle_deg),
            degrees(STEEPEST_DEG),
        )
    turned = math.radians(angle_deg)
    taken_mm = (inside_radius_mm + stock_mm) * math.tan(turned / 2.0)
    parts = []
    for number, leg_mm in enumerate(legs_mm, start=1):
        bends = 1 if number in (1, len(legs_mm)) else 2
        straight_mm = leg_mm - bends * taken_mm
        if straight_mm < 0.0:
            raise NotReckoned(
                "Leg {} of {} is shorter than its {}, {}; give a longer leg or a smaller radius.",
                number,
                mm(leg_mm),
                "bend takes" if bends == 1 else "two bends take",
                mm(bends * taken_mm),
            )
        parts.append(PartOfALength(say("straight of leg {}", number), mm(straight_mm)))
    count = len(legs_mm) - 1
    square = inside_radius_mm == 0.0
    one_mm = taken_mm if square else turned * (inside_radius_mm + stock_mm / 2.0)
    around_mm = count * one_mm
    bends_told = "bend" if count == 1 else f"{count} bends"
    what = say("round the {} of {}", bends_told, degrees(angle_deg))
    if square:
        what = as_words("in the square corner" if count == 1 else f"in the {count} square corners")
    parts.append(PartOfALength(what, mm(around_mm)))
    if square:
        return _whole(Bent.BEND, stock_mm, parts, _square_corner(stock_mm))
    return _whole(Bent.BEND, stock_mm, parts, (_SHARP,) if inside_radius_mm < stock_mm else ())


def _square_corner(stock_mm: float) -> tuple[Words, ...]:
    """How a square corner gets its metal, and what handbooks add for it.

    Sources: FAO AH635E09, as CORNER_UPSET (confirmed); that it is closed while it is less than square, T. F.
    Googerty, Hand Forging and Wrought-Iron Ornamental Work, 1911, p. 47 (confirmed).
    """
    return (
        say(
            "A corner wants its metal before it is bent: upset the bar there to about {} first. Drive it "
            "square while it stands more open than 90°; closed tighter, its inside cracks.",
            mm(CORNER_UPSET * stock_mm),
        ),
        say(
            "That is the metal alone: handbooks add a quarter of the thickness, {}, for each corner.",
            mm(CORNER_ADDED * stock_mm),
        ),
    )


def _given(size_mm: float | None, option: str, what: str) -> float:
    if size_mm is None:
        raise NotReckoned(f"Still to be given: {option}, the {what}.")
    return size_mm


def _whole(
    kind: Bent, stock_mm: float, parts: Sequence[PartOfALength], remarks: tuple[Words, ...]
) -> LengthToCut:
    length_mm = math.fsum(part.length.value for part in parts)
    return LengthToCut(kind, mm(stock_mm), tuple(parts), mm(length_mm), remarks)
