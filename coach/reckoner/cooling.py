"""How long a bar out of the fire stays hot."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.fire.colours import HEAT_COLOURS, NO_COLOUR
from coach.fire.cooling import (
    AT_THE_ANVIL,
    STILL_AIR,
    CoolingCurve,
    CoolingPoint,
    cooling_curve,
)
from coach.fire.glow import FIRST_GLOW_C
from coach.fire.limits import burning_words, too_hot_words, worked_at
from coach.metals.cooling_steel import cooling_steel, turns_from_c
from coach.metals.grade_file import Grade
from coach.quantities import Figure, Words, celsius, say, seconds
from coach.quantities.takes import flag
from coach.reckoner.asking.reading import NotReckoned, TypedBar, TypedHeat
from coach.reckoner.asking.takes import bar, heat, metal
from coach.reckoner.asking.told import Caution, Told, Under, rows

SUMMARY = "Tell how long a bar takes to cool from one heat to another."
SOURCES = (
    "Sources: EN 1993-1-2, its balance and its specific heat of steel (confirmed second-hand); as it cools, "
    "that of austenite, 620 J/kgK, to where it turns (judgement). A long bar with scale in still air; a "
    "draught or bright metal changes it. On the anvil: half as much heat again is lost (judgement)."
)
TAKES = (
    bar(),
    heat("--from", after="; else the highest forging heat"),
    heat("--to", after="; else the lowest forging heat"),
    metal(),
    flag("--anvil", "worked at the anvil, where half of the time it lies on cold iron"),
)

#: Judgement, one standard uncertainty: the heat held (0.10), the scale's emissivity of 0.7 to 0.9 and the
#: draught of a shop together.
DOUBT_SHARE: Final = 0.15

#: What is told of a cooled surface where a heating one has no colour yet.
_GLOWS_NO_MORE: Final = "glows no more"

#: How much is told at once (our choice).
_STEPS_C: Final = (10, 20, 25, 50, 100, 200)
_MOST_ROWS: Final = 8


class MomentOfCooling(NamedTuple):
    """One moment of a cooling."""

    time: Figure  # how long it has been out
    surface: Figure  # how hot its surface is
    middle: Figure  # how hot its middle is
    colour: str  # what White and Taylor call the surface, or that it glows no more


class Cooling(NamedTuple):
    """How long a bar takes from one heat to another."""

    section: TypedBar
    metal: str  # the grade
    start: Figure  # the heat it begins at
    end: Figure  # the heat it ends at
    anvil: bool  # whether it is worked at the anvil, lying on it for about half the time
    time: Figure  # how long that takes
    moments: tuple[MomentOfCooling, ...]  # in order of time
    remarks: tuple[Words, ...]  # what was assumed


def reckon(
    section: TypedBar,
    metal: Grade,
    from_: TypedHeat | None = None,
    to: TypedHeat | None = None,
    *,
    anvil: bool = False,
) -> Cooling:
    """The seconds from one heat to another, by default from a grade's highest forging heat to its lowest.

    Raises NotReckoned where the bar would have to grow hotter or the grade's heats are not known, and as
    `working_curve` does. Source: the balance of EN 1993-1-2, by `coach.fire.cooling`.

    >>> from coach.metals.grade import grade
    >>> bar, hot, cold = TypedBar("round", (20.0,)), TypedHeat(1200, 0), TypedHeat(800, 0)
    >>> round(reckon(bar, grade("mild steel"), hot, cold).time.value)
    84
    """
    start_c = _heat(from_, metal.forging_high_c, metal, "highest", "--from")
    end_c = _heat(to, metal.forging_low_c, metal, "lowest", "--to")
    if start_c <= end_c:
        raise NotReckoned(
            "A bar of {} does not cool to {}: give a lower --to or a higher --from.",
            celsius(start_c),
            celsius(end_c),
        )
    curve = working_curve(section, metal, start_c, end_c, anvil=anvil)
    return Cooling(
        section,
        metal.name,
        celsius(start_c),
        celsius(end_c),
        anvil,
        _time(curve.seconds),
        tuple(map(_moment, _moments(curve))),
        _too_hot(metal, start_c),
    )


def told(answer: Cooling) -> Iterator[Told]:
    """The time, and the colours that it goes through."""
    yield say(
        "{} of {} from {} to {} {}: about {:±}.",
        answer.section.words,
        answer.metal,
        answer.start,
        answer.end,
        "at the anvil" if answer.anvil else "in still air",
        answer.time,
    )
    yield from answer.remarks
    yield Under("As it cools", (rows((one.time, one.surface, one.colour) for one in answer.moments),))
    if answer.end.value < FIRST_GLOW_C:
        yield Caution("It no longer glows there and looks cold, and it burns the hand: use the tongs.")


def working_curve(bar: TypedBar, grade: Grade, from_c: float, to_c: float, *, anvil: bool) -> CoolingCurve:
    """The cooling of a long bar's surface; raises OutOfRange."""
    steel = cooling_steel(from_c, turns_from_c(grade))
    metal = steel._replace(density_kg_m3=grade.density_kg_m3)
    return cooling_curve(bar.cooling_section, from_c, to_c, AT_THE_ANVIL if anvil else STILL_AIR, metal)


def burning(grade: Grade, temperature_c: float) -> tuple[Words, ...]:
    """What to say of a heat that a grade must be feared to burn at."""
    told = burning_words(grade, temperature_c)
    return (told,) if told else ()


def _too_hot(grade: Grade, temperature_c: float) -> tuple[Words, ...]:
    """The same of a heat that is too hot to forge at, but for one that the grade is welded at."""
    low, high = (limit.temperature for limit in worked_at(grade, welding=True))
    if low is not None and high is not None and low.value <= temperature_c <= high.value:
        return burning(grade, temperature_c)
    told = too_hot_words(grade, temperature_c)
    return (told,) if told else ()


def _time(so_many: float) -> Figure:
    return seconds(so_many, DOUBT_SHARE * so_many)


def _heat(given: TypedHeat | None, usual_c: float | None, grade: Grade, which: str, option: str) -> float:
    if given is not None:
        return given.temperature_c
    if usual_c is None:
        raise NotReckoned(f"The {which} forging heat of {grade.name} is not known; give {option}.")
    return usual_c


def _moment(point: CoolingPoint) -> MomentOfCooling:
    surface_c, named = point.surface_c, HEAT_COLOURS.name_of(point.surface_c)
    colour = _GLOWS_NO_MORE if named == NO_COLOUR else named
    return MomentOfCooling(_time(point.seconds), celsius(surface_c), celsius(point.middle_c), colour)


def _moments(curve: CoolingCurve) -> tuple[CoolingPoint, ...]:
    """The cooling at its two ends and at round temperatures between them."""
    first, last = curve.points[0], curve.points[-1]
    span_c = first.surface_c - last.surface_c
    step_c = next((step for step in _STEPS_C if span_c / step <= _MOST_ROWS), _STEPS_C[-1])
    round_c = range(int(first.surface_c // step_c) * step_c, int(last.surface_c), -step_c)
    between = [at for at in round_c if last.surface_c + step_c / 2 < at < first.surface_c - step_c / 2]
    return (first, *map(curve.when, between), last)
