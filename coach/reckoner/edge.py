"""The wedge of an edge: its angle, how wide its bevel is and what the stone takes off it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.finish.edge import (
    EDGE_ANGLES,
    Sides,
    UsualAngle,
    angle_deg,
    bevel_face_mm,
    bevel_width_mm,
    ground_mm2,
)
from coach.metals.thermal import DENSITY_KG_M3
from coach.quantities import Figure, Kind, Span, Words, degrees, grams, mm, read_angle_deg, say
from coach.quantities.takes import Take, flag, plain
from coach.reckoner.asking.reading import NotReckoned
from coach.reckoner.asking.takes import size
from coach.reckoner.asking.told import Told, Under, rows

SUMMARY = "Tell how wide an edge's bevel is, or what angle it makes."
SOURCES = (
    "Sources: elementary geometry on a flat bar; usual angles of the trade (from memory); 7.85 g/cm³, the "
    "density of steel, for the metal ground away (confirmed second-hand)."
)
TAKES = (
    Take("--angle", "between the two faces that meet in the edge: 25", "A", plain(read_angle_deg)),
    size("--bevel", "the other way: how far the bevel reaches back", metavar="WIDTH"),
    size("--thickness", "how thick it is behind the bevel", metavar="T", needed=True),
    size(
        "--edge",
        "how thick the edge itself is; nothing without it",
        metavar="T",
        usual="0",
        may_be_nothing=True,
    ),
    size("--length", "how long the edge is; else 100 mm", usual="100 mm"),
    flag("--one-sided", "ground on one side alone, as a chisel is"),
)

#: The density of steel in g/mm³ (computed).
_G_MM3: Final = DENSITY_KG_M3 * 1e-6


class Edge(NamedTuple):
    """A wedge, and how it is ground out of a flat bar."""

    sides: int  # how many are ground
    angle: Figure  # between the two faces that meet in the edge
    thickness: Figure  # behind the bevel
    edge: Figure  # how thick the edge itself is
    bevel: Figure  # how far it reaches back along the tool
    face: Figure  # the ground face on its slope, as a rule laid on it reads
    section: Figure  # what is ground away, as it is cut across
    length: Figure  # how long the edge is
    ground: Figure  # the metal ground away in all
    usual: tuple[UsualAngle, ...]


def reckon(
    thickness: float,
    edge: float = 0.0,
    length: float = 100.0,
    angle: float | None = None,
    bevel: float | None = None,
    *,
    one_sided: bool = False,
) -> Edge:
    """The bevel of an angle in degrees, or the angle of a bevel in mm, on steel of one thickness in mm.

    Raises NotReckoned unless one of them is given, and OutOfRange for sizes that make no wedge. Elementary
    geometry, by `coach.finish.edge`.

    >>> round(reckon(4.934, 0.5, angle=25).bevel.value, 2)
    10.0
    """
    sides: Sides = 1 if one_sided else 2
    if angle is None and bevel is not None:
        angle = angle_deg(edge, thickness, bevel, sides)
    elif angle is None or bevel is not None:
        either = "Give either the --angle of the edge or the width of its --bevel, to be told the other."
        raise NotReckoned(either)
    section_mm2 = ground_mm2(thickness, angle, edge, sides)
    return Edge(
        sides,
        degrees(angle),
        mm(thickness),
        Figure(edge, Kind.FINE),
        mm(bevel_width_mm(angle, thickness, edge, sides)),
        mm(bevel_face_mm(angle, thickness, edge, sides)),
        Figure(section_mm2, Kind.AREA),
        mm(length),
        grams(section_mm2 * length * _G_MM3),
        EDGE_ANGLES,
    )


def told(answer: Edge) -> Iterator[Told]:
    """The wedge."""
    yield say(
        "{} from {} to {}: a bevel {} wide on {}, {} on its slope.",
        answer.angle,
        answer.thickness,
        say("an edge {} thick", answer.edge) if answer.edge.value else "a keen edge",
        answer.bevel,
        "one side" if answer.sides == 1 else "either side",
        answer.face,
    )
    yield say("Ground out of the flat bar it loses {} for {} of edge.", answer.ground, answer.length)
    usual = rows((one.tool, _span(one), one.source) for one in answer.usual)
    yield Under("Usual angles between the faces", (usual,))


def _span(usual: UsualAngle) -> Words | Span:
    if usual.high is None:
        return say("{} or more", usual.low)
    return Span(usual.low.value, usual.high.value, Kind.ANGLE)
