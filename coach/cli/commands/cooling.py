"""`coach cooling`: how long a bar out of the fire stays hot."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
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
    from coach.reckoner.heat import CoolingView

SUMMARY = "Tell how long a bar takes to cool from one heat to another."
GROUP = RECKONER
arrange = joined


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    section_argument(parser)
    parser.add_argument("--from", dest="hot", metavar="T", help=f"{HEAT}; else the highest forging heat")
    parser.add_argument("--to", dest="cold", metavar="T", help=f"{HEAT}; else the lowest forging heat")
    metal_argument(parser)
    parser.add_argument(
        "--anvil",
        action="store_true",
        help="worked at the anvil, where half of the time it lies on cold iron",
    )
    sourced(
        parser,
        "Sources: EN 1993-1-2, its balance and its specific heat of steel (confirmed second-hand); a long "
        "bar with scale in still air; a draught or bright metal changes it. On the anvil: half as much "
        "heat again is lost (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[CoolingView]:
    """Tell the seconds, and the colours that it goes through."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[CoolingView]:
    from coach.quantities import write_duration
    from coach.reckoner.asking import read_bar, read_heat
    from coach.reckoner.heat import cooling

    units = shown(asked)
    view = cooling(
        read_bar(asked.section, units),
        metal(asked),
        units,
        from_c=None if asked.hot is None else read_heat(asked.hot).temperature_c,
        to_c=None if asked.cold is None else read_heat(asked.cold).temperature_c,
        anvil=asked.anvil,
    )
    where = "at the anvil" if view.anvil else "in still air"
    minutes = f", {view.minutes:.1f} min" if view.seconds >= 60.0 else ""
    lines = sentences(
        f"{view.section} of {view.metal} from {view.from_text} to {view.to_text} {where}: "
        f"{'at least ' if view.at_least else 'about '}{round(view.seconds)} s{minutes}, "
        f"±{write_duration(view.doubt)}.",
        *view.remarks,
    )
    lines += headed(
        "As it cools",
        table((f"{point.seconds:.0f} s", point.temperature_text, point.colour) for point in view.points),
    )
    return reply([*lines, *_caution(view.caution)], view)


def _caution(text: str) -> list[str]:
    return ["", *sentences(f"Caution: {text}")] if text else []
