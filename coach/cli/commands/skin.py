"""`coach skin`: how deep the fire takes the carbon out of a steel."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
from coach.cli.question_lines import HEAT, RECKONER, sentences, shown, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.skin import SkinDepthView

SUMMARY = "Tell how deep the fire takes the carbon out of a steel."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("grade", metavar="GRADE", help="such as 1084 or C45")
    parser.add_argument(
        "heats",
        metavar="HEAT MINUTES",
        nargs="+",
        help=f"{HEAT}, and how long it lies at it: 3 (min) or 90s; as often as it is heated",
    )
    sourced(
        parser,
        "Sources: the diffusivity of J. Ågren 1986 (confirmed second-hand), Fick's second law (confirmed "
        "second-hand); nine tenths of the carbon and 0.1 mm beyond (judgement). An upper bound.",
    )


def run(asked: argparse.Namespace) -> Reply[SkinDepthView]:
    """Tell the depths, and what to leave."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[SkinDepthView]:
    from coach.metals.grade import grade
    from coach.reckoner.skin import read_heats, skin

    view = skin(grade(asked.grade), read_heats(asked.heats), shown(asked))
    heats = ", ".join(f"{one.minutes_text} at {one.temperature_text}" for one in view.heats)
    after = f"{view.metal}, {view.carbon:g} % carbon, after {heats}"
    if not view.skin:
        return reply(sentences(f"{after}: that takes no carbon out of it.", *view.remarks), view)
    lines = sentences(
        f"{after}: on each face at most {view.skin_text} has less than nine tenths of its carbon, and "
        f"{view.half_text} less than half.",
        f"As the heats are doubted, {view.skin_range_text} instead of {view.skin_text}.",
        f"Leave {view.allowance_text} on each face for the grinder.",
    )
    rows = ((f"{one.depth_text} deep", f"{one.carbon:.2f} % carbon") for one in view.profile)
    return reply([*lines, *headed("Below the face", table(rows)), "", *sentences(*view.remarks)], view)
