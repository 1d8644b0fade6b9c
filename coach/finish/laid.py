"""How thick hard steel is laid on, so that enough of it is left when the tool is ground.

The account runs through the steps in this order. Barbs are raised on the plain steel to hold it and are
partly lost in the weld; the weld squeezes a share of the thickness out; the joined section is forged, and
the steel thins with it; scale comes off the outer face; then the skin, or the grinding, whichever is deeper.
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from coach.quantities.checks import check_share, check_size, finite
from coach.quantities.figure import Figure, mm
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import Words, say

#: Judgement: the share of the height of raised barbs that is lost in the weld.
BARBS_LOST_SHARE: Final = 0.5

#: A cleft is split 1.5 to 2 thicknesses deep (from memory).
LEAST_CLEFT_OF_THICKNESS: Final = 1.5


class Layer(NamedTuple):
    """One layer of laid-on steel and what takes from it, all in mm or shares of it.

    On a face it is counted by its thickness; driven into a cleft, by its length back from the edge.
    """

    remains_mm: float  # hard steel to be left, on the face or behind the edge
    skin_mm: float = 0.0  # decarburised, to come off the outer face
    ground_mm: float = 0.0  # grinding that is planned on the outer face or edge line; the skin goes with it
    barbs_mm: float = 0.0  # height of the barbs raised before the weld
    scale_mm: float = 0.0  # burnt off the outer face in all its heats
    squeeze_share: float = 0.0  # of the steel, squeezed out by the weld
    forged_ratio: float = 1.0  # finished over ready size of the joined section; 1 for a face
    barbs_lost_share: float = BARBS_LOST_SHARE
    in_cleft: bool = False  # forging draws steel and iron out together, taken as even (judgement)


class Portion(NamedTuple):
    """One part of the size, what it is for and how much it is."""

    what: str
    size: Figure


def ready_mm(layer: Layer) -> float:
    """How big the plain steel must be before its barbs are raised, in mm, for the layer to remain.

    ((remains + max(skin, ground) + scale) / forged_ratio) / (1 - squeeze) + barbs × barbs_lost_share.
    Raises OutOfRange for a size below 0 and a share out of its range (forged_ratio above 0, and to 1 on a
    face; squeeze from 0 to below 1).
    Bookkeeping, so it needs no source of its own; the shares are judgement.

    >>> round(ready_mm(Layer(3.0, skin_mm=0.3, ground_mm=0.5, scale_mm=0.2, squeeze_share=0.1)), 3)
    4.111
    >>> round(ready_mm(Layer(25.0, ground_mm=1.0, squeeze_share=0.01, forged_ratio=1.6, in_cleft=True)), 2)
    16.41
    """
    return math.fsum(portion.size.value for portion in portions(layer))


def remains_mm(ready_mm: float, layer: Layer) -> float:
    """How much hard steel is left, in mm, of steel this big: undoes `ready_mm`, whatever `remains_mm` says.

    Less than 0 says that the grinding goes through the steel by so much. Raises OutOfRange as `ready_mm`.

    >>> round(remains_mm(4.111, Layer(0, skin_mm=0.3, ground_mm=0.5, scale_mm=0.2, squeeze_share=0.1)), 3)
    3.0
    """
    check_size(ready_mm, f"{'length' if layer.in_cleft else 'thickness'} of the steel")
    _check(layer)
    welded_mm = (ready_mm - layer.barbs_mm * layer.barbs_lost_share) * (1.0 - layer.squeeze_share)
    return welded_mm * layer.forged_ratio - layer.scale_mm - max(layer.skin_mm, layer.ground_mm)


def portions(layer: Layer) -> tuple[Portion, ...]:
    """Where the size of `ready_mm` goes, in mm, from the steel that stays back to the first step.

    The parts add up to it; what takes nothing is left out, and what forging draws out counts below 0. Raises
    OutOfRange as `ready_mm` does.

    >>> [part.what for part in portions(Layer(3.0, ground_mm=0.5, forged_ratio=0.8))]
    ['hard steel that is left', 'grinding of the outer face', 'thinned by forging the joined section']
    """
    _check(layer)
    skin, ground = layer.skin_mm, layer.ground_mm
    if ground >= skin:
        off = "grinding of the outer face" + (", the skin with it" if skin > 0.0 else "")
    else:
        off = "skin of the outer face" + (", more than was to be ground" if ground > 0.0 else "")
    left, forged = "hard steel that is left", "thinned"
    if layer.in_cleft:
        left, off, forged = "hard steel behind the edge", "ground off the edge line", "drawn out"
    forged_mm = layer.remains_mm + max(skin, ground) + layer.scale_mm
    welded_mm = forged_mm / layer.forged_ratio
    parts = (
        Portion(left, mm(layer.remains_mm)),
        Portion(off, mm(max(skin, ground))),
        Portion("scale of the outer face", mm(layer.scale_mm)),
        Portion(f"{forged} by forging the joined section", mm(welded_mm - forged_mm)),
        Portion("squeezed out by the weld", mm(welded_mm / (1.0 - layer.squeeze_share) - welded_mm)),
        Portion("barbs lost in the weld", mm(layer.barbs_mm * layer.barbs_lost_share)),
    )
    finite(math.fsum(part.size.value for part in parts), "thickness of the steel")
    return tuple(part for part in parts if part.size.value != 0.0)


def cleft_faults(cleft_mm: float, inset_mm: float, thickness_mm: float) -> tuple[Words, ...]:
    """What is wrong with a cleft, a plain sentence each: its depth, its steel and the bar split, in mm.

    Steel that is to go in further than the cleft is deep, and a cleft shallower than 1½ thicknesses of the
    bar (from memory). The steel is driven to the bottom, and lips that are drawn thin may run past its edge
    or stop short of it: on that nothing is published.

    >>> cleft_faults(22, 22, 12)
    ()
    """
    check_size(cleft_mm, "depth of the cleft")
    check_size(inset_mm, "depth of the steel in the cleft")
    check_size(thickness_mm, "thickness of the bar")
    faults = []
    if cleft_mm < inset_mm:
        faults.append(
            say(
                "The steel cannot go {} into a cleft {} deep; split deeper, or say less of an inset.",
                mm(inset_mm),
                mm(cleft_mm),
            )
        )
    least_mm = LEAST_CLEFT_OF_THICKNESS * thickness_mm
    if cleft_mm < least_mm:
        faults.append(
            say(
                "The cleft, {} deep, is shallower than 1½ thicknesses of the bar; split it {} deep.",
                mm(cleft_mm),
                mm(least_mm),
            )
        )
    return tuple(faults)


def _check(layer: Layer) -> None:
    for size_mm, name in (
        (layer.remains_mm, "hard steel to be left"),
        (layer.skin_mm, "skin"),
        (layer.ground_mm, "grinding"),
        (layer.barbs_mm, "height of the barbs"),
        (layer.scale_mm, "scale"),
    ):
        check_size(size_mm, name, may_be_nothing=True)
    check_share(layer.squeeze_share, "share squeezed out", may_be_nothing=True, may_be_whole=False)
    check_share(layer.barbs_lost_share, "share of the barbs lost", may_be_nothing=True)
    if layer.in_cleft:
        check_size(layer.forged_ratio, "stretch of the joined section")
    elif not 0.0 < layer.forged_ratio <= 1.0:
        raise OutOfRange(
            "The finished thickness of the joined section over its thickness when welded must be above 0 "
            f"and at most 1, not {layer.forged_ratio:g}; 1 means that it is not forged thinner."
        )
