"""The eye to drift for a haft that is there, the kerf in it and the wedge that fills it."""

from __future__ import annotations

from functools import partial
from typing import Final, NamedTuple

from coach.finish.haft import (
    USUAL_FIT_MM,
    USUAL_FLARE_MM,
    Direction,
    EyeFor,
    MeasuredHaft,
    eye_for_haft,
    kerf_depth_mm,
    wedge_for,
)
from coach.quantities import Shown, write_length
from coach.quantities.errors import briefly
from coach.reckoner.asking.reading import NotReckoned, write_fine
from coach.telling.words import write

#: A saw of the bench takes so much, in mm (judgement).
USUAL_KERF_MM: Final = 1.5


class WedgeView(NamedTuple):
    """The kerf and the wedge for it."""

    depth: float  # of the eye
    kerf_depth: float  # how deep to saw
    kerf_depth_text: str
    kerf: float  # its width
    thickness: float  # of the wedge at its head
    thickness_text: str
    tip: float  # at its tip
    tip_text: str
    length: float  # how long it is
    length_text: str
    text: str  # all of it in words


class EyeForHaftView(NamedTuple):
    """The eye to drift for a haft."""

    wood: str
    source: str  # of its shrinkage, with how far it is confirmed, in brackets at its end
    hole_length: float  # where the haft goes in, along the head
    hole_width: float  # across it
    hole_text: str
    far_length: float  # where it comes out and is wedged
    far_width: float  # across it
    far_text: str
    reasons: tuple[str, ...]  # a list of sentences: what was taken off and why
    seat_when: str  # whether the haft can be seated now
    wedge: WedgeView | None  # None where the depth of the eye was not told


def read_rings(text: str) -> Direction:
    """The way that growth rings run over the eye, length or width; raises NotReckoned.

    >>> read_rings("Width")
    'width'
    """
    way = text.strip().casefold()
    if way == "length":
        return "length"
    if way != "width":
        raise NotReckoned(
            f"{briefly(text)} is no way for growth rings to run: type length (along the head) or width."
        )
    return "width"


def eye(
    haft: MeasuredHaft,
    shown: Shown,
    *,
    fit_mm: float = USUAL_FIT_MM,
    flare_mm: float = USUAL_FLARE_MM,
    depth_mm: float | None = None,
    kerf_mm: float = USUAL_KERF_MM,
) -> EyeForHaftView:
    """The eye to drift for a haft, and its wedge where the depth of the eye is told.

    Raises FinishError for a haft from which no eye follows. Sources: the Wood Handbook, FPL-GTR-190, for the
    shrinkage; fit and flare (judgement), kerf and wedge (from memory), by `coach.finish.haft`.

    >>> from coach.finish.haft import Oval
    >>> from coach.finish.wood import wood
    >>> eye(MeasuredHaft(Oval(32, 20), wood("white ash"), 12, 8, "length"), Shown()).hole_text
    '31.3 × 19.5 mm'
    """
    found = eye_for_haft(haft, fit_mm=fit_mm, flare_mm=flare_mm)
    return EyeForHaftView(
        wood=haft.wood.name,
        source=haft.wood.source,
        hole_length=found.hole_length_mm,
        hole_width=found.hole_width_mm,
        hole_text=_by(found.hole_length_mm, found.hole_width_mm, shown),
        far_length=found.far_length_mm,
        far_width=found.far_width_mm,
        far_text=_by(found.far_length_mm, found.far_width_mm, shown),
        reasons=tuple(write(reason, shown) for reason in found.reasons),
        seat_when=found.seat_when,
        wedge=None if depth_mm is None else _wedge(found, depth_mm, kerf_mm, shown),
    )


def _wedge(eye: EyeFor, depth_mm: float, kerf_mm: float, shown: Shown) -> WedgeView:
    say = partial(write_length, shown=shown)
    kerf_depth = kerf_depth_mm(depth_mm)
    made = wedge_for(eye.far_width_mm - eye.hole_width_mm, kerf_mm, kerf_depth)
    thick, tip = (write_fine(size_mm, shown) for size_mm in (made.thickness_mm, made.tip_mm))
    ends = f"{thick} at its head" + (
        f" and {tip} at its tip" if made.tip_mm > 0.0 else ", thinned to nothing"
    )
    return WedgeView(
        depth=depth_mm,
        kerf_depth=kerf_depth,
        kerf_depth_text=say(kerf_depth),
        kerf=kerf_mm,
        thickness=made.thickness_mm,
        thickness_text=thick,
        tip=made.tip_mm,
        tip_text=tip,
        length=made.length_mm,
        length_text=say(made.length_mm),
        text=f"Saw the kerf {say(kerf_depth)} deep; the wedge is {say(made.length_mm)} long, {ends}, 1 in 6.",
    )


def _by(length_mm: float, width_mm: float, shown: Shown) -> str:
    return f"{write_length(length_mm, shown, unit=False)} × {write_length(width_mm, shown)}"
