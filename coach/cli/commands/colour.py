"""`coach colour`: what a colour of hot or of tempered steel says, both ways."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import table
from coach.cli.painting import INDENT, Swatched, swatched
from coach.cli.reckoned import RECKONER, sentences, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.colour import ColoursView, ColourView

SUMMARY = "Tell what a heat looks like, and how hot a colour is."
GROUP = RECKONER

_CAUTION = "Caution: hot metal that no longer glows looks cold, and it burns the hand: use the tongs."
# What no longer hurts to touch for a moment, °C (common practice, no source).
_HURTS_FROM_C = 45.0


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument(
        "asked",
        metavar="COLOUR_OR_TEMPERATURE",
        nargs="*",
        help="a colour (light orange) or a temperature (950, 1750F); without it, the whole table",
    )
    parser.add_argument(
        "--temper", action="store_true", help="the colours of tempering instead of those of heat"
    )
    parser.add_argument("--table", metavar="NAME", help="only this published table")
    sourced(
        parser,
        "Sources: the published tables that are named beside the colours, which differ by up to 150 °C on "
        "one word; the swatches of heat by Planck's law and the CIE 1931 observer (confirmed second-hand),"
        " those of tempering by eye (judgement). The light of the shop changes what is seen.",
    )


def run(asked: argparse.Namespace) -> Reply[ColoursView]:
    """Tell the colour, in every table that has it."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[ColoursView]:
    from coach.reckoner.colour import colours

    view = colours(" ".join(asked.asked), "temper" if asked.temper else "heat", asked.table)
    rows = swatched(
        table([_cells(view, row) for row in view.colours], indent=INDENT), [row.rgb for row in view.colours]
    )
    doubt = f"{view.doubt:.0f} °C ({view.doubt * 1.8:.0f} °F)"
    lines = [*_heading(view), "", *rows, "", *sentences(f"A word is good to ±{doubt} at best.")]
    if _looks_cold(view):
        lines += sentences(_CAUTION)
    return reply(lines, view)


def _heading(view: ColoursView) -> list[str]:
    if view.rgb is None:
        first = view.colours[0]
        return sentences(f"{first.table}: {first.source}")
    both = _both(view.temperature_c, view.temperature_f)
    return [Swatched(f"{INDENT}{view.asked}: {both}" if view.asked[0].isalpha() else INDENT + both, view.rgb)]


def _cells(view: ColoursView, row: ColourView) -> tuple[str, ...]:
    both = _both(row.temperature_c, row.temperature_f)
    if view.rgb is None:
        return both, row.name, ", ".join((*row.aliases, *(f"for {use}" for use in row.uses)))
    return row.table, row.name, both, ", ".join(f"for {use}" for use in row.uses)


def _both(temperature_c: float | None, temperature_f: float | None) -> str:
    if temperature_c is None or temperature_f is None:
        return ""
    return f"{temperature_c:.0f} °C, {temperature_f:.0f} °F"


def _looks_cold(view: ColoursView) -> bool:
    if view.kind != "heat" or view.temperature_c is None or view.temperature_c < _HURTS_FROM_C:
        return False
    return any(row.temperature_c is None for row in view.colours)
