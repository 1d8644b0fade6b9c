"""What the commands of the reckoner have in common: how a question is typed, and how it is refused."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.page import paragraph

if TYPE_CHECKING:
    from coach.metals.grade import Grade
    from coach.quantities import Shown

RECKONER = "one figure at a time, without a job"
"""The heading in `coach --help` that these commands stand under."""

USUAL_METAL = "mild steel"
SECTION = "a bar: 25 (square), 40x10 (flat), round 25 or octagon 25"
HEAT = "a temperature (950, 1750F) or a heat colour (orange)"

# A word that only makes sense with the one after it, which argparse would take for another argument.
_LEADING = ("square", "flat", "round", "octagon", "power")


def joined(words: list[str]) -> list[str]:
    """Join `round 25` and the like into one word, so that a smith need not put it in quotes."""
    arranged: list[str] = []
    for word in words:
        if arranged and arranged[-1].lower() in _LEADING and not word.startswith("-"):
            arranged[-1] = f"{arranged[-1]} {word}"
        else:
            arranged.append(word)
    return arranged


def section_argument(parser: argparse.ArgumentParser) -> None:
    """Let the command take the section of a bar."""
    parser.add_argument("section", metavar="SECTION", help=SECTION)


def metal_argument(parser: argparse.ArgumentParser) -> None:
    """Let the command take a grade."""
    parser.add_argument(
        "--metal", metavar="GRADE", default=USUAL_METAL, help=f"an iron or steel; without it, {USUAL_METAL}"
    )


def sourced(parser: argparse.ArgumentParser, text: str) -> None:
    """Let the help say where the figures come from, and that they are estimates."""
    parser.epilog = f"An estimate. {text}"


def shown(asked: argparse.Namespace) -> Shown:
    """The units that sizes are shown in, and bare numbers read in."""
    from coach.quantities import Shown

    return Shown(asked.units or "mm")


def metal(asked: argparse.Namespace) -> Grade:
    """The grade that a command line names."""
    from coach.metals.grade import grade

    return grade(asked.metal)


def sentences(*texts: str) -> list[str]:
    """Each text as a paragraph that begins with a capital, those that are empty left out."""
    return [line for text in texts if text for line in paragraph(text[0].upper() + text[1:])]
