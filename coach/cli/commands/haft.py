"""`coach haft`: the eye to drift for a haft that is there, and its wedge."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed
from coach.cli.question_lines import RECKONER, sentences, shown, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.finish.haft import MeasuredHaft
    from coach.quantities import Shown
    from coach.reckoner.haft import EyeForHaftView

SUMMARY = "Tell the eye to drift for a haft, its kerf and its wedge."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument(
        "size", metavar="SIZE", help="the haft where it is seated: length along the head by width, as 36x22"
    )
    parser.add_argument(
        "--wood", metavar="WOOD", required=True, help="its wood, such as ash or pignut hickory"
    )
    parser.add_argument(
        "--moisture", metavar="PERCENT", default="10", help="its moisture now; 10 unless said"
    )
    parser.add_argument(
        "--in-use", metavar="PERCENT", default="10", help="its moisture where it will be used; 10 unless said"
    )
    parser.add_argument("--natural", metavar="SIZE", help="of a riven haft, its size at a second place")
    parser.add_argument(
        "--rings", metavar="WAY", default="length", help="which way its rings run: length or width of the eye"
    )
    parser.add_argument("--spare", metavar="SIZE", help="what is left for scale and the file; else 0.4 mm")
    parser.add_argument("--flare", metavar="SIZE", help="how much wider the far side is; else 2 mm")
    parser.add_argument("--depth", metavar="SIZE", help="how deep the eye is, to be told kerf and wedge")
    parser.add_argument("--kerf", metavar="SIZE", help="how wide the saw cuts; else 1.5 mm")
    sourced(
        parser,
        "Sources: the shrinkage of the Wood Handbook, FPL-GTR-190 (confirmed for most woods), by a straight "
        "line below 30 % moisture (from memory); kerf and wedge as usual in the trade (from memory); what is "
        "left for the file, and the flare (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[EyeForHaftView]:
    """Tell the eye, and the wedge."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[EyeForHaftView]:
    from coach.finish.haft import USUAL_FIT_MM, USUAL_FLARE_MM
    from coach.reckoner.asking.reading import read_size_mm, read_size_or_nothing_mm
    from coach.reckoner.haft import USUAL_KERF_MM, eye

    units = shown(asked)
    view = eye(
        _haft(asked, units),
        units,
        fit_mm=USUAL_FIT_MM if asked.spare is None else read_size_or_nothing_mm(asked.spare, units.system),
        flare_mm=USUAL_FLARE_MM
        if asked.flare is None
        else read_size_or_nothing_mm(asked.flare, units.system),
        depth_mm=None if asked.depth is None else read_size_mm(asked.depth, units.system),
        kerf_mm=USUAL_KERF_MM if asked.kerf is None else read_size_mm(asked.kerf, units.system),
    )
    return reply(_lines(view), view)


def _haft(asked: argparse.Namespace, units: Shown) -> MeasuredHaft:
    from coach.finish.haft import MeasuredHaft, Oval
    from coach.finish.wood import wood_called
    from coach.reckoner.asking.reading import read_percent, read_two_sizes_mm
    from coach.reckoner.haft import read_rings

    return MeasuredHaft(
        Oval(*read_two_sizes_mm(asked.size, "a haft", units.system)),
        wood_called(asked.wood),
        read_percent(asked.moisture),
        read_percent(asked.in_use),
        read_rings(asked.rings),
        None if asked.natural is None else Oval(*read_two_sizes_mm(asked.natural, "a haft", units.system)),
    )


def _lines(view: EyeForHaftView) -> list[str]:
    lines = sentences(
        f"Drift the eye to {view.hole_text} where the haft goes in, and {view.far_text} where it comes out.",
        view.seat_when,
    )
    lines += headed("Why", sentences(*view.reasons))
    if view.wedge is not None:
        lines += headed("Kerf and wedge", sentences(view.wedge.text))
    return [*lines, "", *sentences(f"Shrinkage of {view.wood}: {view.source}.")]
