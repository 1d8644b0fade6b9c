"""`coach hardness`: a hardness on every scale, and how hard the part of a tool should be."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
from coach.cli.question_lines import RECKONER, sentences, shown, sourced
from coach.cli.reply import Refused, Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.hardness import HardnessView, PartsView, WantedView

SUMMARY = "Tell a hardness on every scale, or how hard a part should be."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument(
        "hardness",
        metavar="HARDNESS",
        nargs="*",
        help="such as 56 HRC, 600 HV or 550 HB; a bare number is HRC",
    )
    parser.add_argument(
        "--part",
        metavar="PART",
        nargs="?",
        const="",
        help="how hard this is to be: axe edge; alone, all of them",
    )
    sourced(
        parser,
        "Sources: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory), ISO 18265 for the "
        "tensile strength (from memory); for the parts of tools the standards told beside them, and "
        "proposals of the coach (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[HardnessView | WantedView | PartsView]:
    """Tell the scales, or the part."""
    if (asked.part is None) == (not asked.hardness):
        raise Refused(
            "Give either a hardness, as in `coach hardness 56 HRC`, or a part, as in "
            '`coach hardness --part "axe edge"`.'
        )
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[HardnessView | WantedView | PartsView]:
    from coach.reckoner.hardness import every_part, hardness, wanted_hardness

    if asked.part is None:
        view = hardness(" ".join(asked.hardness), shown(asked))
        return reply(_scales(view), view)
    if not asked.part.strip():
        every = every_part()
        return reply(_parts(every), every)
    wanted = wanted_hardness(asked.part)
    return reply(_part(wanted), wanted)


def _scales(view: HardnessView) -> list[str]:
    rows = (
        ("Rockwell C", "" if view.hrc is None else f"{view.hrc:.0f} HRC"),
        ("Vickers", f"{view.hv:.0f} HV"),
        ("Brinell, carbide ball", "" if view.hb is None else f"{view.hb:.0f} HB"),
        ("tensile strength", view.tensile_text and f"about {view.tensile_text}"),
    )
    told = table((name, text or "beyond the table") for name, text in rows)
    sources = [f"Source: {view.source}."]
    if view.tensile_text:
        sources.append(f"Of the tensile strength: {view.tensile_source}.")
    return [*sentences(f"{view.asked}:"), *told, *sentences(*view.warnings, *sources)]


def _part(view: WantedView) -> list[str]:
    lines = sentences(f"{view.part}: {view.text}, {view.source}.", view.note)
    return lines + headed("Published", table((one.text, one.source) for one in view.published))


def _parts(view: PartsView) -> list[str]:
    return table(((one.part, one.text, one.source) for one in view.parts), indent="")
