"""How many blows and heats it takes to forge a bar down."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.fire.blows import (
    COUNT_DOUBT_SHARE,
    HAND_HAMMER,
    SLEDGE,
    Striker,
    forging_work_j,
    power_hammer,
    stiffness,
)
from coach.fire.blows import reckon as counted
from coach.fire.colours import HEAT_COLOURS
from coach.fire.limits import STEEL_TURNS_BELOW_C, too_hot_words
from coach.metals.grade_file import Grade
from coach.quantities import COVERAGE, Figure, Kind, Words, as_words, celsius, mm, say, seconds
from coach.quantities.takes import Take, plain
from coach.reckoner.asking.reading import NotReckoned, Target, TypedBar, TypedHeat
from coach.reckoner.asking.takes import bar, heat, metal, size, target
from coach.reckoner.asking.told import Told, rows
from coach.reckoner.cooling import DOUBT_SHARE, working_curve
from coach.reckoner.spread import USUAL_BITE_SHARE, drawing_of

_WAYS: Final = "hand, sledge or power with the mass of the ram, as in power 25"


def read_striker(text: str) -> Striker:
    """The way to strike that a text names: `hand`, `sledge`, `power 25`; raises NotReckoned, OutOfRange.

    >>> read_striker("power 25 kg").mass_kg
    25.0
    """
    word = text.strip().lower()
    if word in ("hand", "sledge"):
        return HAND_HAMMER if word == "hand" else SLEDGE
    ram = re.fullmatch(r"power\s+([0-9]{1,6}(?:[.,][0-9]{1,3})?)\s*(?:kg)?", word)
    if ram is None:
        raise NotReckoned(f"{text[:30]!r} is no way to strike: give {_WAYS}.")
    return power_hammer(float(ram[1].replace(",", ".")))


SUMMARY = "Tell about how many blows and heats it takes to forge a bar down."
SOURCES = (
    "Good to half of itself, until your own blows have been counted. Sources: the flow stress of Y. Misaka "
    "and T. Yoshimoto (1967) (confirmed second-hand), the central impact of textbooks (from memory), and "
    "masses and speeds of hammers (judgement)."
)
TAKES = (
    bar(),
    size("length", "how much of the bar is forged", metavar="LENGTH", needed=True),
    target("20: one side down to it; 20x20, 30x10 or round 20: drawn to this section"),
    heat("--at", "how hot it leaves the fire: ", needed=True),
    metal(),
    Take(
        "--by",
        "hand, sledge or power 25 (the mass of the ram in kg); else by hand",
        "WAY",
        plain(read_striker),
        usual="hand",
        joins=("power",),
    ),
)


class Blows(NamedTuple):
    """Blows and heats for one forging."""

    section: TypedBar
    metal: str  # the grade
    length: Figure  # how much of it is forged
    target: Words  # what it is forged to
    temperature: Figure  # how hot it leaves the fire
    colour: str  # what White and Taylor call it
    mean: Figure  # of a heat, at which its stiffness is taken
    by: str  # what it is struck with
    work: Figure  # the work that it takes
    blows: Figure  # how many
    heats: Figure  # how many
    heat_lasts: Figure  # at the anvil
    back_below: Figure  # back to the fire at this
    remarks: tuple[Words, ...]  # what was assumed


def reckon(section: TypedBar, length: float, to: Target, at: TypedHeat, metal: Grade, by: Striker) -> Blows:
    """The blows and heats that bring a length of bar in mm to a thickness or to a section.

    The work is σ V ln(h0/h1), pass by pass where both sections have four sides and else by their areas; a
    heat lasts from the temperature to the grade's lowest forging heat, worked at the anvil, and its mean
    decides the stiffness, as in a plan. Raises
    NotReckoned where nothing is left to forge or it is too cold, and as the functions beneath do.
    Sources: `coach.fire.blows`, `coach.fire.cooling`.
    """
    at_c = at.temperature_c
    stop_c = metal.forging_low_c if metal.forging_low_c is not None else STEEL_TURNS_BELOW_C
    if at_c <= stop_c:
        raise NotReckoned(
            "At {} it is too cold to forge, as {} goes back to the fire below {}; give a hotter --at.",
            celsius(at_c),
            metal.name,
            celsius(stop_c),
        )
    remarks = [too_hot_words(metal, at_c)]
    if to.thickness_mm is not None:
        squeezes = [_squeeze(section, to.thickness_mm)]
        what = say("{} thick", mm(to.thickness_mm))
    else:
        squeezes, by_areas = _squeezes(section, to.bar, length)
        what = to.bar.words
        if by_areas:
            areas = "It is reckoned by the areas alone, without what goes sideways: there are more."
            remarks.append(say(areas))
    mean_c = (at_c + stop_c) / 2.0
    volume_mm3 = section.area_mm2 * length
    work_j = math.fsum(forging_work_j(metal, mean_c, volume_mm3, *squeeze) for squeeze in squeezes)
    curve = working_curve(section, metal, at_c, stop_c, anvil=True)
    count = counted(work_j, by, curve.seconds)
    remarks.append(as_words(stiffness(metal, mean_c).remark))
    share = COUNT_DOUBT_SHARE / COVERAGE  # the count is told to within this share of itself
    return Blows(
        section,
        metal.name,
        mm(length),
        what,
        celsius(at_c),
        HEAT_COLOURS.name_of(at_c),
        celsius(mean_c),
        by.name,
        Figure(work_j, Kind.ENERGY, share * work_j),
        Figure(count.blows, Kind.COUNT, share * count.blows),
        Figure(count.heats, Kind.COUNT, share * count.heats),
        seconds(curve.seconds, DOUBT_SHARE * curve.seconds),
        celsius(stop_c),
        tuple(one for one in remarks if one),
    )


def told(answer: Blows) -> Iterator[Told]:
    """The blows and the heats."""
    yield say(
        "{} of {}, {}, to {} from {}, {}, with a {}:",
        answer.length,
        answer.section.words,
        answer.metal,
        answer.target,
        answer.temperature,
        answer.colour,
        answer.by,
    )
    lasts = say("{:~} down to {}, at the anvil", answer.heat_lasts, answer.back_below)
    counts = [("blows", say("{:~}", answer.blows)), ("heats", say("{:~}", answer.heats))]
    yield rows([*counts, ("a heat lasts", lasts)])
    yield from answer.remarks


def _squeeze(bar: TypedBar, thickness_mm: float) -> tuple[float, float]:
    if not bar.has_four_sides:
        raise NotReckoned(
            "Nothing is published for flattening a {}; give the section to forge it to, as in --to 30x10.",
            bar.words,
        )
    if thickness_mm >= bar.thickness_mm:
        raise NotReckoned(
            "A {} is {} thick, so nothing is left to forge down to {}; give a smaller thickness.",
            bar.words,
            mm(bar.thickness_mm),
            mm(thickness_mm),
        )
    return bar.thickness_mm, thickness_mm


def _squeezes(bar: TypedBar, target: TypedBar, length_mm: float) -> tuple[list[tuple[float, float]], bool]:
    """The heights before and after each pass, and whether they are only those of the areas."""
    if bar.has_four_sides and target.has_four_sides:
        drawing = drawing_of(bar, target, USUAL_BITE_SHARE * bar.width_mm, length_mm)
        if not drawing.passes:
            raise NotReckoned("A {} is at {} already.", bar.words, target.words)
        return [(one.size.value, one.new_size.value) for one in drawing.passes], False
    if target.area_mm2 >= bar.area_mm2:
        raise NotReckoned(
            "A {} has no more section than {}, and drawing only takes section away; give a smaller section.",
            bar.words,
            target.words,
        )
    return [(bar.area_mm2, target.area_mm2)], True
