"""`coach edge`: the bevel of an angle, the angle of a bevel, and what the stone takes."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
from coach.cli.question_lines import RECKONER, sentences, shown, sourced
from coach.cli.reply import Refused, Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.edge import EdgeView

SUMMARY = "Tell how wide an edge's bevel is, or what angle it makes."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("--angle", metavar="A", help="between the two faces that meet in the edge: 25")
    parser.add_argument("--bevel", metavar="WIDTH", help="the other way: how far the bevel reaches back")
    parser.add_argument("--thickness", metavar="T", required=True, help="how thick it is behind the bevel")
    parser.add_argument(
        "--edge", metavar="T", default="0", help="how thick the edge itself is; nothing without it"
    )
    parser.add_argument("--one-sided", action="store_true", help="ground on one side alone, as a chisel is")
    sourced(
        parser,
        "Sources: elementary geometry on a flat bar; usual angles of the trade (from memory); 7.85 g/cm³, "
        "the density of steel, for the metal ground away (confirmed second-hand).",
    )


def run(asked: argparse.Namespace) -> Reply[EdgeView]:
    """Tell the wedge."""
    if (asked.angle is None) == (asked.bevel is None):
        raise Refused(
            "Give either the --angle of the edge or the width of its --bevel, to be told the other."
        )
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[EdgeView]:
    from coach.quantities import read_angle_deg
    from coach.reckoner.asking.reading import read_size_mm, read_size_or_nothing_mm
    from coach.reckoner.edge import edge

    units = shown(asked)
    view = edge(
        read_size_mm(asked.thickness, units.system),
        read_size_or_nothing_mm(asked.edge, units.system),
        units,
        degrees=None if asked.angle is None else read_angle_deg(asked.angle),
        bevel_mm=None if asked.bevel is None else read_size_mm(asked.bevel, units.system),
        one_sided=asked.one_sided,
    )
    return reply(_lines(view), view)


def _lines(view: EdgeView) -> list[str]:
    where = "on one side" if view.sides == 1 else "on either side"
    keen = f"an edge {view.edge_text} thick" if view.edge else "a keen edge"
    lines = sentences(
        f"{view.angle_text} from {view.thickness_text} to {keen}: a bevel {view.bevel_text} wide {where}, "
        f"{view.face_text} on its slope.",
        f"Ground out of the flat bar it loses {view.ground_text}.",
    )
    rows = ((one.tool, one.text, one.source) for one in view.usual)
    return lines + headed("Usual angles between the faces", table(rows))
