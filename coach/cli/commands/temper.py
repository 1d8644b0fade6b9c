"""`coach temper`: the heat that leaves a hardness, and the hardness that a heat leaves."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
from coach.cli.question_lines import RECKONER, sentences, shown, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.temper import TemperView

SUMMARY = "Tell what heat tempers a steel to a hardness, or what it leaves."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("grade", metavar="GRADE", help="such as 1084 or O1")
    parser.add_argument(
        "--hardness", metavar="WANTED", help='to be left: "54 to 58", 56 or the part of a tool: "axe edge"'
    )
    parser.add_argument(
        "--at", metavar="T", help="how hot it is tempered: 230, 450F or a temper colour (straw)"
    )
    parser.add_argument(
        "--for",
        dest="soak",
        metavar="TIME",
        help="how long at that heat: 2h, 90 (min); else 1.5h, of a colour 3 min",
    )
    sourced(
        parser,
        "Sources: published tables of bars, told beside the answer (from memory), good to 2 or 3 HRC; J. H. "
        "Hollomon and L. D. Jaffe 1945 (confirmed) for other times, the constant of plain carbon steel (from "
        "memory); colours by F. H. Colvin and K. A. Juthe 1921 (confirmed). File and flex a coupon of your "
        "own.",
    )


def run(asked: argparse.Namespace) -> Reply[TemperView]:
    """Tell the temper, both ways."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[TemperView]:
    from coach.metals.grade import grade
    from coach.reckoner.asking.reading import read_hours
    from coach.reckoner.temper import read_temper_heat, read_wanted, temper, usual_hours

    view = temper(
        grade(asked.grade),
        shown(asked),
        hours=usual_hours(asked.at) if asked.soak is None else read_hours(asked.soak),
        wanted_hrc=None if asked.hardness is None else read_wanted(asked.hardness),
        heat=None if asked.at is None else read_temper_heat(asked.at),
    )
    return reply(_lines(view), view)


def _lines(view: TemperView) -> list[str]:
    lines: list[str] = []
    wanted, left = view.wanted, view.left
    if wanted is not None:
        lines += sentences(
            f"{view.metal} to {wanted.hardness_text}: {wanted.temperature_text} for {view.soak_text}, give "
            f"or take {wanted.doubt_hrc:g} HRC.",
            wanted.note,
        )
    if left is not None:
        lines += sentences(
            f"{view.metal} after {left.temperature_text} for {view.soak_text}: {left.text}.",
            left.note if wanted is None else "",
        )
    rows = [(one.text, one.temperature_text, one.colour) for one in view.soaks]
    title = "The same by other times at heat" + (f", for {wanted.hardness_text}" if wanted and left else "")
    lines += headed(title, table(rows))
    if view.table:
        lines += sentences(f"{view.metal} after {view.table_text}, hardened in full:")
        lines += table((one.temperature_text, f"{one.hrc:g} HRC") for one in view.table)
    return [*lines, "", *sentences(view.embrittles, *view.remarks, f"Source: {view.source}.")]
