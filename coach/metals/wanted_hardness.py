"""How hard each part of a struck or cutting tool should be.

Each part has a proposal of the coach's own, which may be departed from, and what standards publish for it.
"""

from __future__ import annotations

from typing import Final, NamedTuple

from coach.quantities.errors import not_known

_LONGEST_NAME: Final = 80


class Published(NamedTuple):
    """What a standard asks for, in HRC; no lower end where it only says how hard at most."""

    low_hrc: float | None
    high_hrc: float
    source: str  # with how far it is confirmed, in brackets at its end


class PartHardness(NamedTuple):
    """How hard a part should be, in HRC; no lower end where it need not be hardened at all."""

    part: str
    low_hrc: float | None
    high_hrc: float
    source: str  # with how far it is confirmed, in brackets at its end
    note: str
    published: tuple[Published, ...] = ()


def wanted(part: str) -> PartHardness:
    """The hardness for a part of a tool, whatever the case and blanks of its name.

    Raises NotKnown, which names the nearest.

    >>> wanted("Hammer  face").high_hrc
    56.0
    """
    asked = " ".join(part[:_LONGEST_NAME].casefold().split())
    if asked in _BY_PART:
        return _BY_PART[asked]
    raise not_known("hardness for a part", part, {one: one for one in _BY_PART})


def parts() -> tuple[str, ...]:
    """The names of all the parts, cutting edges first."""
    return tuple(_BY_PART)


_PROPOSAL: Final = "a proposal of the coach (judgement)"
_AXES_A: Final = Published(
    51.0, 56.0, "DIN 7287, axes and hatchets of C60, edge hardened 30 mm deep (confirmed second-hand)"
)
_AXES_B: Final = Published(
    47.0, 55.0, "DIN 7287, axes and hatchets of C35 to C40, edge hardened 30 mm deep (confirmed second-hand)"
)
_MAUL_BLADE: Final = Published(
    45.0, 60.0, "ASME B107.54-2001 §4.3.2, blade of a maul, 19 mm back from its edge (confirmed)"
)
_MAUL_FACE: Final = Published(44.0, 55.0, "ASME B107.54-2001 §4.3.2, face of a maul (confirmed)")
_HEAVY_FACE: Final = Published(
    45.0, 60.0, "ASME B107.54-2001 §4.3.1, face of a heavy striking tool (confirmed)"
)
_HEAVY_PEEN: Final = Published(
    45.0, 60.0, "ASME B107.54-2001 §4.3.3, peen of a sledge, 12.7 mm back from its end (confirmed)"
)
_HAMMERS: Final = Published(
    52.0, 58.0, "DIN 1193, face and peen, as told in DGUV Information 209-001 §2.3 (confirmed second-hand)"
)
_ENGINEERS_HAMMER: Final = Published(
    50.0, 58.0, "DIN 1041, engineers' hammer of C45 or harder steel, hardened at least 3 mm deep (confirmed)"
)
_HAMMER_EYE: Final = Published(
    None, 30.0, "DIN 1193, as told in DGUV Information 209-001 §2.3 (confirmed second-hand)"
)
_ENGINEERS_EYE: Final = Published(None, 30.0, "DIN 1041, eye of an engineers' hammer (confirmed)")

_AXE_NOTE: Final = (
    "The upper end is 1 HRC above the range of DIN 7287; for frozen or knotty wood stay in its lower half."
)
_SPLITTING_NOTE: Final = "It wedges more than it cuts, and is softer than an axe so as not to chip."
_STRUCK_NOTE: Final = "A face that a hammer strikes is kept softer than the hammer."
_EYE_NOTE: Final = "It is not hardened: keep it out of the quench, and cool while the ends are heated."
_FACE_NOTE: Final = "No corner or edge of the face may be harder than 58 HRC, or chips fly from it."

_BY_PART: Final = {
    one.part: one
    for one in (
        PartHardness("axe edge", 53.0, 57.0, _PROPOSAL, _AXE_NOTE, (_AXES_A, _AXES_B)),
        PartHardness("hatchet edge", 53.0, 57.0, _PROPOSAL, _AXE_NOTE, (_AXES_A, _AXES_B)),
        PartHardness("splitting edge", 48.0, 54.0, _PROPOSAL, _SPLITTING_NOTE, (_MAUL_BLADE,)),
        PartHardness(
            "chisel edge", 54.0, 58.0, _PROPOSAL, "For a chisel that cuts cold metal, not for wood."
        ),
        PartHardness(
            "drawknife edge", 58.0, 61.0, _PROPOSAL, "For wood chisels too, which no steel hammer strikes."
        ),
        PartHardness("knife edge", 57.0, 60.0, _PROPOSAL, "For a knife that is not used to chop or to pry."),
        PartHardness("struck face", 44.0, 55.0, _MAUL_FACE.source, _STRUCK_NOTE, (_MAUL_FACE,)),
        PartHardness("hammer face", 50.0, 56.0, _PROPOSAL, _FACE_NOTE, (_HAMMERS, _ENGINEERS_HAMMER)),
        PartHardness(
            "hammer peen", 50.0, 56.0, _PROPOSAL, _FACE_NOTE, (_HAMMERS, _ENGINEERS_HAMMER, _HEAVY_PEEN)
        ),
        PartHardness("sledge face", 50.0, 56.0, _PROPOSAL, _FACE_NOTE, (_HEAVY_FACE,)),
        PartHardness("eye", None, 30.0, _HAMMER_EYE.source, _EYE_NOTE, (_HAMMER_EYE, _ENGINEERS_EYE)),
    )
}
