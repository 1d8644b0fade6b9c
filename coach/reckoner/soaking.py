"""How long a bar must lie in the fire until its middle is hot."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.fire.cooling import soaking_minutes
from coach.metals.grade_file import Grade
from coach.metals.thermal import STEEL
from coach.quantities import Figure, Kind, Words, celsius, say, seconds
from coach.quantities.takes import Take, plain
from coach.reckoner.asking.reading import NotReckoned, TypedBar, TypedHeat, read_difference_c
from coach.reckoner.asking.takes import bar, heat, metal
from coach.reckoner.asking.told import Told
from coach.reckoner.cooling import burning

SUMMARY = "Tell how long a bar lies in the fire until its middle is hot."
SOURCES = (
    "Sources: the balance of EN 1993-1-2 and its specific heat of steel (confirmed second-hand), in a fire "
    "of one heat all round whose gases give 30 W/m²K (judgement)."
)
TAKES = (
    bar(),
    heat("--fire", "how hot the fire is: ", needed=True),
    heat("--from", after=" as it goes in; else 20 °C", usual="20"),
    Take(
        "--within",
        "how near the fire the middle is to be: 25 (°C) or 45F",
        "DEGREES",
        plain(read_difference_c),
        usual="25",
    ),
    metal(),
)

#: Judgement, one standard uncertainty: a fire is not one temperature all round.
DOUBT_SHARE: Final = 0.25

_ALL_ROUND: Final = say(
    "It is reckoned for a bar in the fire on all sides; one that lies on the coals, or beside others, takes "
    "longer."
)


class Soaking(NamedTuple):
    """How long a bar takes to be as hot as the fire to its middle."""

    section: TypedBar
    metal: str  # the grade
    fire: Figure  # how hot the fire is
    start: Figure  # how hot the bar goes in
    within: Figure  # how near the fire's heat its middle comes
    time: Figure  # how long that takes
    remarks: tuple[Words, ...]  # what was assumed


def reckon(section: TypedBar, metal: Grade, fire: TypedHeat, from_: TypedHeat, within: float) -> Soaking:
    """The time until the middle of a bar is within some °C of its fire.

    Raises NotReckoned where it is that hot already, and OutOfRange. Source: `coach.fire.cooling`.

    >>> from coach.metals.grade import grade
    >>> bar, fire, cold = TypedBar("square", (10.0,)), TypedHeat(1250, 0), TypedHeat(20, 0)
    >>> round(reckon(bar, grade("mild steel"), fire, cold, 100).time.value)
    83
    """
    fire_c, from_c = fire.temperature_c, from_.temperature_c
    conducts = STEEL._replace(density_kg_m3=metal.density_kg_m3)
    minutes = soaking_minutes(section.cooling_section, fire_c, within, from_c, metal=conducts)
    if minutes == 0.0:
        raise NotReckoned(
            "A bar of {} is as hot already as a fire of {} is to make it; give a hotter --fire or a colder "
            "--from.",
            celsius(from_c),
            celsius(fire_c),
        )
    return Soaking(
        section,
        metal.name,
        celsius(fire_c),
        celsius(from_c),
        Figure(within, Kind.TEMPERATURE_CHANGE),
        seconds(60.0 * minutes, DOUBT_SHARE * 60.0 * minutes),
        (*burning(metal, fire_c), _ALL_ROUND),
    )


def told(answer: Soaking) -> Iterator[Told]:
    """The time."""
    yield say(
        "{} of {} from {} in a fire of {}: its middle is within {} of the fire after {:~}.",
        answer.section.words,
        answer.metal,
        answer.start,
        answer.fire,
        answer.within,
        answer.time,
    )
    yield from answer.remarks
