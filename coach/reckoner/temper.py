"""At what heat a hardened steel is tempered to a hardness, and what hardness a temper leaves."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from functools import partial
from typing import Final, NamedTuple

from coach.fire.colours import FIGURE_DOUBT_C
from coach.fire.temper_colours import TEMPER_DOUBT_C, temper_name, temper_temperature_c
from coach.metals.grade import Grade
from coach.metals.hardness import read_hardness
from coach.metals.tempering import (
    TABLE_HOURS,
    Row,
    Tempered,
    TemperFor,
    TemperingError,
    embrittlement,
    equal_temper_c,
    temper_for,
    tempered_hrc,
    tempering_row,
)
from coach.metals.wanted_hardness import wanted
from coach.quantities import Shown, read_temperature_c, write_duration, write_temperature
from coach.quantities.errors import briefly
from coach.quantities.words import NOTHING
from coach.reckoner.asking.reading import NotReckoned, TypedHeat, is_figure
from coach.reckoner.hardness import span
from coach.telling.words import write

#: A run of temper colours lasts so long, against an hour or two in an oven (judgement).
RUN_HOURS: Final = 3.0 / 60.0
#: Colours are told only of so short a time at heat; after longer the film says nothing (judgement).
LONGEST_RUN_HOURS: Final = 5.0 / 60.0

#: What an answer is told for besides the time asked for.
_OTHER_HOURS: Final = (RUN_HOURS, 10.0 / 60.0, 1.0, 2.0)
_BETWEEN: Final = re.compile(r"\s*(?:\bto\b|[-\N{EN DASH}])\s*", re.IGNORECASE)
_SCALE_AT_END: Final = re.compile(r"\s*(hrc|hv|hbw?)\s*$", re.IGNORECASE)
_BY_COLOUR: Final = (
    "Colours are those of a run of a few minutes on bright steel; after an hour in an oven the colour says "
    "nothing of the kind, and the oven's own figure counts."
)
_TWICE: Final = "Of two cycles the times at heat are added up."
_THROUGH: Final = "It holds for steel that was hardened right through."


class SoakView(NamedTuple):
    """One time at heat that leaves the hardness asked about, and the temperatures that it takes."""

    minutes: float  # how long at heat
    text: str  # the time as shown
    low_c: float | None  # None where the parameter is not published so hot or cold; leaves the hard end
    high_c: float | None  # leaves the soft end
    temperature_text: str
    colour: str  # of a short run, empty of a long soak


class WantedTemperView(NamedTuple):
    """The temper for a wanted hardness."""

    low_hrc: float  # the softest wanted
    high_hrc: float  # the hardest wanted
    hardness_text: str
    low_c: float  # leaves the hard end
    nominal_c: float  # that leaves the middle
    high_c: float  # leaves the soft end
    temperature_text: str
    doubt_hrc: float  # the doubt of the hardness
    note: str  # what the table is worth, and where it ends


class LeftView(NamedTuple):
    """The hardness that one temper leaves."""

    temperature_c: float  # how hot it was tempered
    temperature_text: str
    temperature_doubt: float  # °C
    hrc: float | None  # None where it is left harder than the table begins
    doubt_hrc: float | None  # of the table and of the temperature together
    harder_than_hrc: float | None  # where the table begins
    text: str
    note: str  # what the table is worth


class TableRowView(NamedTuple):
    """One row of the published table."""

    temperature_c: float  # the heat
    temperature_text: str
    hrc: float  # the hardness left


class TemperView(NamedTuple):
    """What tempering does to a steel; None and empty for what was not asked."""

    metal: str  # the grade
    minutes: float  # at heat
    soak_text: str
    wanted: WantedTemperView | None  # the temper for a hardness; `null` when none was asked for
    left: LeftView | None  # the hardness left by a temper; `null` when none was told
    soaks: tuple[SoakView, ...]  # what other times at heat take for the same
    table: tuple[TableRowView, ...]  # the whole table, a list of rows; empty when something was asked
    table_text: str  # the time at heat that the table is for
    embrittles: str  # a sentence for struck tools, or empty
    remarks: tuple[str, ...]  # sentences on what was assumed
    source: str  # with how far it is confirmed, in brackets at its end


def read_wanted(text: str) -> tuple[float, float]:
    """The hardness wanted, softest and hardest in HRC, of a figure, a range or the part of a tool.

    Raises HardnessError, UnknownPart, and NotReckoned for a part that is not hardened.

    >>> read_wanted("54 to 58"), read_wanted("axe edge"), read_wanted("56 HRC")
    ((54.0, 58.0), (53.0, 57.0), (56.0, 56.0))
    """
    if not any(letter.isdigit() for letter in text):
        part = wanted(text)
        if part.low_hrc is None:
            raise NotReckoned(
                f"The {part.part} is left at {span(None, part.high_hrc)} and is not hardened, so that there "
                "is no temper for it; name a part that is."
            )
        return part.low_hrc, part.high_hrc
    ends = _BETWEEN.split(text.strip())
    scale = _SCALE_AT_END.search(ends[-1])
    if len(ends) == 2 and scale and not _SCALE_AT_END.search(ends[0]):
        ends[0] = f"{ends[0]} {scale[1]}"
    if len(ends) > 2:
        raise NotReckoned(f"{briefly(text)} is no range of hardness; type one such as 54 to 58.")
    softest, hardest = sorted((read_hardness(ends[0]), read_hardness(ends[-1])))
    return softest, hardest


def read_temper_heat(text: str) -> TypedHeat:
    """The heat of a temper: a figure (`230`, `450 F`) or a temper colour; raises SizeError, UnknownColour.

    >>> read_temper_heat("blue").doubt_c
    16.0
    """
    told = text.strip()
    if is_figure(told):
        return TypedHeat(read_temperature_c(told), FIGURE_DOUBT_C)
    return TypedHeat(temper_temperature_c(told), TEMPER_DOUBT_C)


def usual_hours(at: str | None) -> float:
    """How long a temper is taken to last when nobody says: as the tables, or a colour as long as it runs.

    >>> usual_hours("230"), round(usual_hours("straw") * 60)
    (1.5, 3)
    """
    return TABLE_HOURS if at is None or is_figure(at.strip()) else RUN_HOURS


def temper(
    grade: Grade,
    shown: Shown,
    *,
    hours: float = TABLE_HOURS,
    wanted_hrc: tuple[float, float] | None = None,
    heat: TypedHeat | None = None,
) -> TemperView:
    """The temper for a hardness, and the hardness after a temper, where each is asked; else the table.
    Raises NotReckoned for a grade without a table and TemperingError for what is outside it. Sources: the
    table's own, and Hollomon and Jaffe 1945 for other times, by `coach.metals.tempering`.

    >>> from coach.metals.grade import grade
    >>> round(temper(grade("1084"), Shown(), heat=TypedHeat(230, 15)).left.hrc, 1)
    56.1
    """
    row = tempering_row(grade.name)
    if row is None:
        raise NotReckoned(
            f"No tempering table is known for {grade.name}: temper a coupon of the same bar beside the piece "
            "and flex or file that."
        )
    say = partial(write_temperature, shown=shown)
    found = None if wanted_hrc is None else temper_for(row, wanted_hrc, hours)
    left = None if heat is None else _left(row, heat, hours, shown)
    ends = [(found.low_c, found.high_c)] if found is not None else []
    if heat is not None:
        ends.append((heat.temperature_c, heat.temperature_c))
    brittle = next((told for told in (embrittlement(*pair) for pair in ends) if told), NOTHING)
    table = () if ends else tuple(TableRowView(at_c, say(at_c), hrc) for at_c, hrc in row.points)
    soaks = tuple(_soaks(row, *ends[0], hours, shown)) if ends else ()
    remarks = [_THROUGH, _TWICE, _BY_COLOUR if soaks else "", "" if ends else row.note]
    return TemperView(
        metal=grade.name,
        minutes=60.0 * hours,
        soak_text=write_duration(3600.0 * hours),
        wanted=None if found is None or wanted_hrc is None else _wanted(found, wanted_hrc, shown),
        left=left,
        soaks=soaks,
        table=table,
        table_text=write_duration(3600.0 * TABLE_HOURS),
        embrittles=write(brittle, shown),
        remarks=tuple(text for text in remarks if text),
        source=row.source,
    )


def _wanted(found: TemperFor, wanted_hrc: tuple[float, float], shown: Shown) -> WantedTemperView:
    return WantedTemperView(
        low_hrc=wanted_hrc[0],
        high_hrc=wanted_hrc[1],
        hardness_text=span(*wanted_hrc),
        low_c=found.low_c,
        nominal_c=found.nominal_c,
        high_c=found.high_c,
        temperature_text=_heats(found.low_c, found.high_c, shown),
        doubt_hrc=found.doubt_hrc,
        note=found.note,
    )


def _left(row: Row, heat: TypedHeat, hours: float, shown: Shown) -> LeftView:
    at_text = write_temperature(heat.temperature_c, shown)
    first_c, first_hrc = row.points[0]
    try:
        found = tempered_hrc(row, heat.temperature_c, hours)
    except TemperingError:
        # Below the table it is harder, which is an answer; beyond its other end nothing is known.
        if equal_temper_c(heat.temperature_c, hours, TABLE_HOURS, row.constant) > first_c:
            raise
        begins = write_temperature(first_c, shown)
        text = f"more than {first_hrc:g} HRC, with which the table begins, at {begins}"
        return LeftView(heat.temperature_c, at_text, heat.doubt_c, None, None, first_hrc, text, row.note)
    doubt_hrc = math.hypot(found.doubt_hrc, _doubt_of_heat_hrc(row, heat, hours, found))
    text = f"about {found.hrc:.0f} HRC, give or take {doubt_hrc:.0f}"
    return LeftView(heat.temperature_c, at_text, heat.doubt_c, found.hrc, doubt_hrc, None, text, found.note)


def _doubt_of_heat_hrc(row: Row, heat: TypedHeat, hours: float, found: Tempered) -> float:
    """How far the doubt of the temperature moves the hardness, where the table goes so far."""
    moved = [0.0]
    for at_c in (heat.temperature_c - heat.doubt_c, heat.temperature_c + heat.doubt_c):
        try:
            moved.append(abs(tempered_hrc(row, at_c, hours).hrc - found.hrc))
        except TemperingError:
            continue
    return max(moved)


def _soaks(row: Row, low_c: float, high_c: float, hours: float, shown: Shown) -> Iterator[SoakView]:
    """The time asked for and the others, shortest first, with what each takes for the same hardness."""
    for other in sorted({*_OTHER_HOURS, hours}):
        first_c, last_c = (_equal_c(row, at_c, hours, other) for at_c in (low_c, high_c))
        known = first_c is not None and last_c is not None
        text = "beyond what is published"
        colour = ""
        if first_c is not None and last_c is not None:
            text = _heats(first_c, last_c, shown)
            if other <= LONGEST_RUN_HOURS:
                colour = " to ".join(dict.fromkeys((temper_name(first_c), temper_name(last_c))))
        yield SoakView(
            60.0 * other,
            write_duration(3600.0 * other),
            first_c if known else None,
            last_c if known else None,
            text,
            colour,
        )


def _equal_c(row: Row, at_c: float, hours: float, other: float) -> float | None:
    try:
        return equal_temper_c(at_c, hours, other, row.constant)
    except TemperingError:
        return None


def _heats(low_c: float, high_c: float, shown: Shown) -> str:
    return " to ".join(dict.fromkeys(write_temperature(at_c, shown) for at_c in (low_c, high_c)))
