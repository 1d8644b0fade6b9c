"""`coach limits`: the heats that an iron or a steel may be worked at."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import headed, table
from coach.cli.reckoned import RECKONER, sentences, shown, sourced
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.reckoner.limits import GradeLimitsView, HeatLimitView, LimitsAnswer

SUMMARY = "Tell the heats that irons and steels are forged, welded and burnt at."
GROUP = RECKONER


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument("grades", metavar="GRADE", nargs="+", help='such as C45, 1084 or "wrought iron"')
    sourced(
        parser,
        "Sources: those of each grade, told beside its figures with how far they are confirmed; the "
        "burning limit by the carbon alone (judgement).",
    )


def run(asked: argparse.Namespace) -> Reply[LimitsAnswer]:
    """Tell the heats of each grade, and of all of them in one piece."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[LimitsAnswer]:
    from coach.metals.grade import grade
    from coach.reckoner.limits import limits

    view = limits([grade(name) for name in asked.grades], shown(asked))
    lines: list[str] = []
    for one in view.grades:
        lines += headed(_name(one), _heats(one)) if lines else [_name(one), *_heats(one)]
    if len(view.grades) > 1:
        lines += headed("All in one piece", sentences(view.forging.sentence, view.welding.sentence))
    return reply([*lines, "", *sentences(f"Caution: {view.caution}")], view)


def _name(one: GradeLimitsView) -> str:
    return one.metal if one.carbon is None else f"{one.metal}, {one.carbon:g} % carbon"


def _heats(one: GradeLimitsView) -> list[str]:
    heats = (
        ("forge from", one.forging_high),
        ("forge down to", one.forging_low),
        ("weld from", one.welding_low),
        ("weld up to", one.welding_high),
        ("burns above", one.burning),
    )
    rows = [(label, *_cells(heat)) for label, heat in heats]
    cold = "" if one.back_below_c is None else one.cold_source
    return [*table(rows), *sentences(one.cold, f"Source: {cold}." if cold else "")]


def _cells(heat: HeatLimitView) -> tuple[str, str]:
    return heat.text or "unknown", heat.source
