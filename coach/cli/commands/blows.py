"""`coach blows`: how many blows and heats a forging takes."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.reckoned import (
    HEAT,
    RECKONER,
    joined,
    metal,
    metal_argument,
    section_argument,
    sentences,
    shown,
    sourced,
)
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.blows import BlowsView

SUMMARY = "Tell about how many blows and heats it takes to forge a bar down."
GROUP = RECKONER
arrange = joined


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    section_argument(parser)
    parser.add_argument("length", metavar="LENGTH", help="how much of the bar is forged")
    parser.add_argument(
        "--to",
        dest="target",
        metavar="THICKNESS_OR_SECTION",
        required=True,
        help="20: one side down to it; 20x20, 30x10 or round 20: drawn to this section",
    )
    parser.add_argument("--at", metavar="T", required=True, help=f"how hot it leaves the fire: {HEAT}")
    metal_argument(parser)
    parser.add_argument(
        "--by", metavar="WAY", default="hand", help="hand, sledge or power 25 (the mass of the ram in kg)"
    )
    sourced(
        parser,
        "Good to half of itself, until your own blows have been counted. Sources: the flow stress of Y. "
        "Misaka and T. Yoshimoto (1967) (confirmed second-hand), the central impact of textbooks (from "
        "memory), and masses and speeds of hammers (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[BlowsView]:
    """Tell the blows and the heats."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[BlowsView]:
    from coach.quantities import write_count, write_share
    from coach.reckoner.asking import read_bar, read_heat, read_size_mm, read_target
    from coach.reckoner.blows import blows, read_striker

    units = shown(asked)
    thickness_mm, target = read_target(asked.target, units)
    view = blows(
        read_bar(asked.section, units),
        read_size_mm(asked.length, units),
        metal(asked),
        read_heat(asked.at).temperature_c,
        read_striker(asked.by),
        units,
        thickness_mm=thickness_mm,
        target=target,
    )
    return reply(
        sentences(
            f"{view.length_text} of {view.section}, {view.metal}, to {view.target} from "
            f"{view.temperature_text}, {view.colour}, with a {view.by}: about "
            f"{write_count(view.blows, 'blow')} in {write_count(view.heats, 'heat')}, "
            f"±{write_share(view.doubt_share)} of either.",
            f"A heat lasts about {view.seconds_text} down to {view.stop_text}, at the anvil.",
            *view.remarks,
        ),
        view,
    )
