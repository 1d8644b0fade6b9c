"""`coach soaking`: how long a bar must lie in the fire."""

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
    from coach.reckoner.heat import SoakingView

SUMMARY = "Tell how long a bar lies in the fire until its middle is hot."
GROUP = RECKONER
arrange = joined


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    section_argument(parser)
    parser.add_argument("--fire", metavar="T", required=True, help=f"how hot the fire is: {HEAT}")
    parser.add_argument("--from", dest="cold", metavar="T", help=f"{HEAT} as it goes in; else 20 °C")
    parser.add_argument(
        "--within",
        metavar="DEGREES",
        default="25",
        help="how near the fire the middle is to be: 25 (°C) or 45F",
    )
    metal_argument(parser)
    sourced(
        parser,
        "Sources: the balance of EN 1993-1-2 and its specific heat of steel (confirmed second-hand), in a "
        "fire of one heat all round whose gases give 30 W/m²K (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[SoakingView]:
    """Tell the minutes."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[SoakingView]:
    from coach.quantities import write_duration
    from coach.reckoner.asking import read_bar, read_difference_c, read_heat
    from coach.reckoner.heat import COLD_C, soaking

    units = shown(asked)
    view = soaking(
        read_bar(asked.section, units),
        metal(asked),
        read_heat(asked.fire).temperature_c,
        units,
        from_c=COLD_C if asked.cold is None else read_heat(asked.cold).temperature_c,
        within_c=read_difference_c(asked.within),
    )
    return reply(
        sentences(
            f"{view.section} of {view.metal} from {view.from_text} in a fire of {view.fire_text}: its "
            f"middle is within {view.within_text} of the fire after about {view.text}, "
            f"±{write_duration(60.0 * view.doubt)}.",
            *view.remarks,
        ),
        view,
    )
