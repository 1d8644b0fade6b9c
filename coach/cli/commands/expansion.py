"""`coach expansion`: a size measured hot told cold, and a cold one told hot."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import table
from coach.cli.reckoned import HEAT, RECKONER, sentences, shown, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.expansion import ExpansionView

SUMMARY = "Tell what a size measured hot will be cold, and a cold one hot."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("size", metavar="SIZE", help="a length, such as 186 or 7-5/16in")
    parser.add_argument("--at", metavar="T", required=True, help=f"how hot the metal is: {HEAT}")
    sourced(
        parser,
        "Source: EN 1993-1-2:2005 §3.4.1.1, the elongation of carbon steel (confirmed second-hand); a "
        "tenth of it is doubted for other steels and for iron (judgement), and the colour by 40 °C.",
    )


def run(asked: argparse.Namespace) -> Reply[ExpansionView]:
    """Tell both ways."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[ExpansionView]:
    from coach.reckoner.asking import read_heat, read_size_mm
    from coach.reckoner.expansion import expansion

    units = shown(asked)
    view = expansion(read_size_mm(asked.size, units), read_heat(asked.at), units)
    rows = (
        (f"measured {view.size_text} hot", f"it will be {view.cold_text} cold, {view.doubt_text}"),
        (f"for {view.size_text} cold", f"forge it to {view.hot_text} hot, {view.doubt_text}"),
    )
    longer = f"{100.0 * view.elongation:.2f} %"
    heading = sentences(f"At {view.temperature_text}, {view.colour}, steel is {longer} longer than cold.")
    return reply([*heading, *table(rows)], view)
