"""`coach length`: how long to cut the bar for a ring or for bends."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import table
from coach.cli.reckoned import RECKONER, sentences, shown, sourced
from coach.cli.reply import Refused, Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.length import LengthView

SUMMARY = "Tell the length to cut for a ring or for bends."
GROUP = RECKONER

_OF_A_RING = ("inside", "weld")
_OF_A_BEND = ("inside_radius", "angle")


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("kind", choices=("ring", "bend"), help="what the bar becomes")
    parser.add_argument(
        "legs", metavar="LEG", nargs="*", help="of a bend: the outside length of each leg, such as 100 60"
    )
    parser.add_argument("--stock", metavar="T", required=True, help="how thick the bar is where it bends")
    parser.add_argument("--inside", metavar="D", help="of a ring: its inside diameter")
    parser.add_argument("--weld", metavar="ALLOWANCE", help="of a ring: what its weld takes; else nothing")
    parser.add_argument("--inside-radius", metavar="R", help="of a bend: its inside radius")
    parser.add_argument(
        "--angle", metavar="A", help="of a bend: how far the bar is turned from straight; else 90°"
    )
    sourced(
        parser,
        "Sources: the mean diameter for rings, T. F. Googerty, Hand Forging, p. 69 (confirmed); the middle"
        " of the bar for bends whose inside radius is its thickness or more (from memory).",
    )


def run(asked: argparse.Namespace) -> Reply[LengthView]:
    """Tell the length, and what it is made up of."""
    _refuse_what_belongs_to_the_other(asked)
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[LengthView]:
    from coach.quantities import read_angle_deg
    from coach.reckoner.asking import read_size_mm
    from coach.reckoner.length import bend_length, ring_length

    units = shown(asked)
    stock_mm = read_size_mm(asked.stock, units)
    if asked.kind == "ring":
        weld_mm = 0.0 if asked.weld in (None, "0") else read_size_mm(asked.weld, units)
        view = ring_length(read_size_mm(asked.inside, units), stock_mm, weld_mm, units)
    else:
        legs_mm = [read_size_mm(leg, units) for leg in asked.legs]
        angle_deg = 90.0 if asked.angle is None else read_angle_deg(asked.angle)
        view = bend_length(legs_mm, read_size_mm(asked.inside_radius, units), angle_deg, stock_mm, units)
    rows = table((part.text, part.label) for part in view.parts)
    heading = sentences(f"Cut {view.text} of bar {view.stock_text} thick:")
    return reply([*heading, *rows, *sentences(*view.remarks)], view)


def _refuse_what_belongs_to_the_other(asked: argparse.Namespace) -> None:
    ring = asked.kind == "ring"
    for name in _OF_A_BEND if ring else _OF_A_RING:
        if getattr(asked, name) is not None:
            option = f"--{name.replace('_', '-')}"
            raise Refused(f"{option} is for {'bends' if ring else 'rings'}: leave it out of a {asked.kind}.")
    needed = "inside" if ring else "inside_radius"
    if getattr(asked, needed) is None:
        wanted = "--inside, its inside diameter" if ring else "--inside-radius, the inside radius of the bend"
        raise Refused(f"A {asked.kind} needs {wanted}; `coach length --help` shows what it takes.")
    if ring and asked.legs:
        raise Refused(f"A ring has no legs, so {asked.legs[0]!r} cannot be one: give --inside and --stock.")
