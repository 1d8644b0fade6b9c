"""What a branch is when it is split from its zone, as planned: its share of the metal and of the section."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from coach.forms import Form
from coach.ledger.working import ZoneState, starting_state
from coach.operations.shape import Shape
from coach.recipe.model import Branch, Recipe, Step

#: How far one cut of the hot chisel along a bar, from both faces, runs beside its line, as a standard
#: uncertainty (common practice, no source): a millimetre, and no more than this share of a narrow bar.
_CUT_DOUBT_MM: Final = 1.0
_CUT_DOUBT_SHARE: Final = 0.05
#: The sizes across which it is cut; all others every branch has as the whole had them.
CUT_ACROSS: Final = frozenset({"width", "end_width"})


class Split(NamedTuple):
    """A zone as it is when it is split."""

    shape: Shape
    sizes_mm: Mapping[str, float]
    slit_mm: float  # what a saw takes of the width, all its cuts together


def branch_of(recipe: Recipe, zone: str) -> tuple[str, Branch]:
    """The zone that a branch is split from, and its share."""
    piece = recipe.piece_of(zone)
    whole = piece.split_from(zone)
    assert whole is not None
    return whole, next(one for one in piece.branches[whole] if one.zone == zone)


def slit_of(step: Step) -> float:
    """What the cuts of a split take of the width, mm."""
    return (len(step.parts) - 1) * step.amounts.get("slit_mm", 0.0)


def source_of(shape: Shape, dimension: str) -> str:
    """The size of the whole that one of a branch comes from."""
    return next(name for name in shape.sources(dimension) if name in shape.dimensions)


def cut_doubt_mm(wide_mm: float) -> float:
    """How far a cut along a bar so wide runs beside its line, as a standard uncertainty."""
    return min(_CUT_DOUBT_MM, _CUT_DOUBT_SHARE * wide_mm)


def section_mm(split: Split, branch: Shape, share: float) -> dict[str, float]:
    """Every size of a branch but its length, as the cut leaves it."""
    found = {}
    for name in branch.dimensions:
        if name != "length":
            size_mm = split.sizes_mm[source_of(split.shape, name)]
            found[name] = share * (size_mm - split.slit_mm) if name in CUT_ACROSS else size_mm
    return found


def branch_form(recipe: Recipe, zone: str, split: Split, volume_mm3: float) -> Form:
    """A branch of so much metal, as the cut leaves it; raises FormError where the saw leaves nothing."""
    shape, (_, branch) = starting_state(recipe, zone).shape, branch_of(recipe, zone)
    sizes = section_mm(split, shape, branch.share)
    return shape.draft({**sizes, "length": 1.0}).solved("length", volume_mm3)


def to_be_split(recipe: Recipe, zone: str) -> ZoneState:
    """A branch while its metal is still that of the whole."""
    return starting_state(recipe, zone)._replace(within=branch_of(recipe, zone)[0], parts=())
