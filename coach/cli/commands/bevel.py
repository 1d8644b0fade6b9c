"""`coach bevel`: how a bevel curves its bar, and how far to bend it the other way beforehand."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed
from coach.cli.question_lines import RECKONER, joined, sentences, shown, sourced
from coach.cli.reply import Refused, Reply, reply

if TYPE_CHECKING:
    from coach.quantities import Shown
    from coach.reckoner.bevel import BevelView, CalibratedBevelView, MeasuredHeat

SUMMARY = "Tell how a forged bevel curves a bar, and the bend before it."
GROUP = RECKONER
arrange = joined


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("section", metavar="SECTION", help="the bar, width by thickness: 40x6")
    parser.add_argument("edge", metavar="EDGE", help="how thick the edge is forged: 1")
    parser.add_argument("--bevel", metavar="WIDTH", help="how far the bevel reaches; else the whole width")
    parser.add_argument(
        "--share", metavar="SHARE", help="of the displaced metal, what goes lengthwise: 0.5 unless said"
    )
    measured = parser.add_argument_group("after the first bevel heat")
    measured.add_argument(
        "--sagitta", metavar="S", help="how far the back's middle stands off the straight-edge"
    )
    measured.add_argument("--chord", metavar="C", help="how long the straight-edge is that lies in the curve")
    measured.add_argument("--measured-width", metavar="WIDTH", help="how wide the bar is then, back to edge")
    measured.add_argument("--measured-edge", metavar="T", help="how thick the edge is then; else as aimed at")
    sourced(
        parser,
        "Sources: derived for this coach, and no measured bevel was found to confirm it; half of the metal "
        "lengthwise, 1.3 times the curve of the plain model and a span of a factor two (judgement). Measure "
        "the first bevel heat.",
    )


def run(asked: argparse.Namespace) -> Reply[BevelView]:
    """Tell the curve, and what to bend beforehand."""
    if (asked.sagitta is None) != (asked.chord is None):
        raise Refused("A curve is told by both --sagitta and --chord: give the one that is missing.")
    if asked.sagitta is None and (asked.measured_width, asked.measured_edge) != (None, None):
        raise Refused("What was measured says nothing without the curve: give --sagitta and --chord as well.")
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[BevelView]:
    from coach.finish.bevel import USUAL_SHARE
    from coach.reckoner.asking.reading import read_bar, read_fraction, read_size_mm, read_size_or_nothing_mm
    from coach.reckoner.bevel import bevelling

    units = shown(asked)
    edge_mm = read_size_or_nothing_mm(asked.edge, units.system)
    view = bevelling(
        read_bar(asked.section, units.system),
        edge_mm,
        units,
        bevel_mm=None if asked.bevel is None else read_size_mm(asked.bevel, units.system),
        share=USUAL_SHARE if asked.share is None else read_fraction(asked.share),
        measured=None if asked.sagitta is None else _measured(asked, edge_mm, units),
    )
    return reply(_lines(view), view)


def _measured(asked: argparse.Namespace, edge_mm: float, units: Shown) -> MeasuredHeat:
    from coach.reckoner.asking.reading import read_size_mm
    from coach.reckoner.bevel import MeasuredHeat

    width, edge = asked.measured_width, asked.measured_edge
    return MeasuredHeat(
        edge_mm if edge is None else read_size_mm(edge, units.system),
        read_size_mm(asked.sagitta, units.system),
        read_size_mm(asked.chord, units.system),
        None if width is None else read_size_mm(width, units.system),
    )


def _lines(view: BevelView) -> list[str]:
    keen = f"an edge of {view.edge_text}" if view.edge else "nothing"
    lines = sentences(
        f"{view.section}, bevelled {view.bevel_text} wide down to {keen}: the edge grows as it thins, and "
        f"let be the bar curves about its back to {view.radius_text} of radius, and becomes about "
        f"{view.width_text} wide.",
        f"To end straight, bend its back the other way beforehand to {view.pre_curve_text} of radius.",
    )
    if view.measured is not None:
        lines += headed("By the heat that was measured", _measured_lines(view.measured))
    return [*lines, "", *sentences(*view.remarks)]


def _measured_lines(view: CalibratedBevelView) -> list[str]:
    factor = "" if view.factor is None else f", and it curves {view.factor:.2f} times as sharply as reckoned"
    return sentences(
        f"The back lies on a radius of {view.radius_measured_text}: {view.share_text} of the displaced metal "
        f"went lengthwise{factor}.",
        f"The whole bevel will curve it to about {view.radius_text} of radius, {view.width_text} wide; a bar "
        f"bent to {view.pre_curve_text} the other way beforehand would end straight.",
    )
