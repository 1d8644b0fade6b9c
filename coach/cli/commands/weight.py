"""`coach weight`: what a bar weighs."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.reckoned import (
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
    from coach.reckoner.weight import WeightView

SUMMARY = "Tell what a length of bar weighs, or how long a weight of it is."
GROUP = RECKONER
arrange = joined


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    section_argument(parser)
    parser.add_argument("length", metavar="LENGTH", nargs="?", help="how long it is: 1000 or 3ft")
    parser.add_argument("--mass", metavar="MASS", help="the other way: how long a bar of this mass is: 1.4kg")
    metal_argument(parser)
    sourced(
        parser,
        "Source: elementary geometry and the density of the grade, 7.85 g/cm³ for steel as in EN 10058, "
        "10059 and 10060 (from memory); rolled bars differ by a few per cent, wrought iron by its slag.",
    )


def run(asked: argparse.Namespace) -> Reply[WeightView]:
    """Tell the mass, or the length."""
    return _told(asked)


def _told(asked: argparse.Namespace) -> Reply[WeightView]:
    from coach.quantities import read_mass_g
    from coach.reckoner.asking import read_bar, read_size_mm
    from coach.reckoner.weight import weight

    units = shown(asked)
    view = weight(
        read_bar(asked.section, units),
        metal(asked),
        units,
        length_mm=None if asked.length is None else read_size_mm(asked.length, units),
        mass_g=None if asked.mass is None else read_mass_g(asked.mass, "lb" if units.system == "in" else "g"),
    )
    bar = f"{view.section} of {view.metal}"
    if view.length is None:
        return reply(sentences(f"{bar}: {view.mass_per_metre_text}."), view)
    told = f"{view.length_text} of {bar} weighs {view.mass_text}"
    if asked.mass is not None:
        told = f"{view.mass_text} of {bar} is {view.length_text} long"
    return reply(sentences(f"{told}, at {view.mass_per_metre_text}."), view)
