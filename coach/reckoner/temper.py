"""At what heat a hardened steel is tempered to a hardness, and what hardness a temper leaves."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.fire.colours import FIGURE_DOUBT_C
from coach.fire.temper_colours import TEMPER_COLOURS, TEMPER_DOUBT_C
from coach.metals.baths import can_crack_in, other_bath_words
from coach.metals.grade_file import Grade
from coach.metals.hardness import read_hardness
from coach.metals.quenches import QUENCHES
from coach.metals.tempering import (
    RUN_HOURS,
    TABLE_HOURS,
    Tempered,
    TemperFor,
    colours_later,
    embrittlement,
    equal_temper_c,
    left_words,
    soak,
    temper_for,
    tempered_hrc,
)
from coach.metals.tempering_table import TemperingRow, tempering_row
from coach.metals.wanted_hardness import rockwell
from coach.metals.wanted_hardness import wanted as wanted_of_a_part
from coach.quantities import (
    COVERAGE,
    NOTHING,
    Figure,
    Span,
    Words,
    as_words,
    celsius,
    read_duration_s,
    read_temperature_c,
    say,
)
from coach.quantities.errors import briefly
from coach.quantities.refusal import OutOfRange
from coach.quantities.takes import Take, plain
from coach.reckoner.asking.reading import NotReckoned, TypedHeat, is_figure
from coach.reckoner.asking.takes import grade_named, size
from coach.reckoner.asking.told import Told, Under, rows
from coach.reckoner.hardness import span

#: Colours are told only of so short a time at heat; after longer the film says nothing (judgement).
LONGEST_RUN_HOURS: Final = 5.0 / 60.0

#: What an answer is told for besides the time asked for (our choice).
_OTHER_HOURS: Final = (RUN_HOURS, 10.0 / 60.0, 1.0, 2.0)
_BETWEEN: Final = re.compile(r"\s*(?:\bto\b|[-\N{EN DASH}])\s*", re.IGNORECASE)
_SCALE_AT_END: Final = re.compile(r"\s*(hrc|hv|hbw?)\s*$", re.IGNORECASE)
_BY_COLOUR: Final = say(
    "Colours are those of a run of a few minutes on bright steel; after an hour in an oven the colour says "
    "nothing of the kind, and the oven's own figure counts."
)
_LOOKED_AT: Final = "eyes and arms covered, and look for cracks before it is tempered or struck."
_TWICE: Final = say("Of two cycles the times at heat are added up.")


def read_wanted(text: str) -> tuple[float, float]:
    """The hardness wanted, softest and hardest in HRC, of a figure, a range or the part of a tool.

    Raises SizeError, NotKnown, and NotReckoned for a part that is not hardened.

    >>> read_wanted("54 to 58"), read_wanted("axe edge"), read_wanted("56 HRC")
    ((54.0, 58.0), (53.0, 57.0), (56.0, 56.0))
    """
    if not any(letter.isdigit() for letter in text):
        part = wanted_of_a_part(text)
        if part.low is None:
            raise NotReckoned(
                "The {} is left soft, {}, and is not hardened, so that there is no temper for it; name a "
                "part that is.",
                part.part,
                span(None, part.high),
            )
        return part.low.value, part.high.value
    ends = _BETWEEN.split(text.strip())
    scale = _SCALE_AT_END.search(ends[-1])
    if len(ends) == 2 and scale and not _SCALE_AT_END.search(ends[0]):
        ends[0] = f"{ends[0]} {scale[1]}"
    if len(ends) > 2:
        raise NotReckoned(f"{briefly(text)} is no range of hardness; type one such as 54 to 58.")
    softest, hardest = sorted((read_hardness(ends[0]), read_hardness(ends[-1])))
    return softest, hardest


def read_temper_heat(text: str) -> tuple[TypedHeat, float]:
    """The heat of a temper: a figure (`230`, `450 F`) or a temper colour; raises SizeError, NotKnown.

    A figure is held as long as the tables say, a colour as long as it runs.

    >>> read_temper_heat("blue")[0].doubt_c, read_temper_heat("230")[1]
    (16.0, 1.5)
    """
    word = text.strip()
    if is_figure(word):
        return TypedHeat(read_temperature_c(word), FIGURE_DOUBT_C), TABLE_HOURS
    return TypedHeat(TEMPER_COLOURS.temperature_c(word), TEMPER_DOUBT_C), RUN_HOURS


def read_quench(text: str) -> str:
    """What a steel was quenched in, one of `coach.metals.quenches`; raises NotReckoned.

    >>> read_quench(" Fast  oil")
    'fast oil'
    """
    medium = " ".join(text.lower().split())
    if medium not in QUENCHES:
        raise NotReckoned(f"{briefly(text)} is no quench: give one of {', '.join(QUENCHES)}.")
    return medium


SUMMARY = "Tell what heat tempers a steel to a hardness, or what it leaves."
SOURCES = (
    "Sources: published tables, told beside the answer with what they were measured on; J. H. "
    "Hollomon and L. D. Jaffe 1945 (confirmed) for other times, the constant of plain carbon steel (from "
    "memory); colours by F. H. Colvin and K. A. Juthe 1921 (confirmed). File and flex a coupon of your own."
)
TAKES = (
    grade_named("such as 1084 or O1"),
    Take(
        "--hardness",
        'to be left: "54 to 58", 56 or the part of a tool: "axe edge"',
        "WANTED",
        plain(read_wanted),
    ),
    Take(
        "--at",
        "how hot it is tempered: 230, 450F or a temper colour (straw)",
        "T",
        plain(read_temper_heat),
    ),
    Take(
        "--for",
        "how long at that heat: 2h, 90 (min); else 1.5h, of a colour 3 min",
        "TIME",
        plain(read_duration_s),
    ),
    size("--thick", "how thick it is; else thin enough to be hardened right through"),
    Take(
        "--quench",
        f"what it was quenched in: {', '.join(QUENCHES)}; else the steel's own",
        "MEDIUM",
        plain(read_quench),
    ),
)


class TimeAtATemper(NamedTuple):
    """One time at heat that leaves the hardness asked about, and the temperatures that it takes."""

    time: Figure  # how long at heat
    low: Figure | None  # the heat that leaves the hard end; None beyond what is published
    high: Figure | None  # that leaves the soft end
    colour: str  # what they look like in so short a run; empty of a longer time


class HardnessLeft(NamedTuple):
    """The hardness that one temper leaves."""

    temperature: Figure  # how hot it was tempered
    hardness: Figure | None  # with the doubt of the heat; None where it is left harder than the table begins
    softest: Figure | None  # the softest that it may be, likewise
    hardest: Figure | None  # and the hardest
    harder_than: Figure | None  # where the table begins, when it is left harder than that
    begins: Figure | None  # the heat that the table begins at, likewise
    note: Words  # what the table is worth


class RowOfTempering(NamedTuple):
    """One row of the published table."""

    temperature: Figure  # the heat
    hardness: Figure  # that it leaves


class Temper(NamedTuple):
    """What tempering does to a steel; None and empty for what was not asked."""

    metal: str  # the grade
    time: Figure  # how long at heat
    wanted: TemperFor | None  # for a hardness
    left: HardnessLeft | None  # by a temper
    soaks: tuple[TimeAtATemper, ...]  # what other times at heat take for the same, shortest first
    table: tuple[RowOfTempering, ...]  # the whole table; empty when something was asked
    table_time: Figure  # the time at heat that the table is for
    embrittles: Words  # what to beware of in struck tools
    remarks: tuple[Words | str, ...]  # what was assumed
    stands: Words  # what its figures were measured on, and why they are taken for it
    source: str  # where the table is from and how far that is confirmed


def reckon(
    grade: Grade,
    hardness: tuple[float, float] | None = None,
    at: tuple[TypedHeat, float] | None = None,
    for_: float | None = None,
    thick: float | None = None,
    quench: str | None = None,
) -> Temper:
    """The temper for a hardness in HRC, and the hardness after a temper, where each is asked; else the table.

    `for_` is in seconds, `thick` in mm. Raises NotReckoned for a grade without a table and OutOfRange for
    what is outside it. Sources: the table's own, and Hollomon and Jaffe 1945 for other times, by
    `coach.metals.tempering`.

    >>> from coach.metals.grade import grade
    >>> round(reckon(grade("1084"), at=read_temper_heat("204")).left.hardness.value, 1)
    60.5
    """
    own = grade.quench.medium if grade.quench is not None else ""
    if quench == "air" and grade.name == "O1":
        raise NotReckoned(
            f"Air does not harden {grade.name} through, though thin pieces of it can harden in air, and are "
            f"then untempered and brittle: its quench is {own}, and its temper is reckoned for that."
        )
    if quench == "air" and own and own != "air":
        raise NotReckoned(
            f"Air does not harden {grade.name}, so that there is nothing to temper: its quench is {own}."
        )
    medium = quench or own
    row = tempering_row(grade.name, thick, medium)
    if row is None:
        raise NotReckoned(
            "No tempering table is known for {}{}: temper a coupon of the same bar beside the piece and flex "
            "or file that.",
            *(grade.name, _its_own_range(grade)),
        )
    heat, usual_hours = (None, TABLE_HOURS) if at is None else at
    hours = usual_hours if for_ is None else for_ / 3600.0
    if heat is not None and usual_hours == RUN_HOURS and hours > LONGEST_RUN_HOURS:
        raise NotReckoned(
            "A temper colour tells of a run of some {}, and after {} it says nothing of the heat: give the "
            "oven's own figure, or leave the time out.",
            *(soak(RUN_HOURS), soak(hours)),
        )
    found = None if hardness is None else temper_for(row, hardness, hours)
    ends = [(found.low.value, found.high.value)] if found is not None else []
    if heat is not None:
        ends.append((heat.temperature_c, heat.temperature_c))
    table = () if ends else tuple(RowOfTempering(celsius(at_c), rockwell(hrc)) for at_c, hrc in row.points)
    soaks = tuple(_soaks(row, *ends[0], hours)) if ends else ()
    beside = other_bath_words(grade, medium)
    if can_crack_in(medium, grade):
        words = "Caution: {} is quenched in {}, and can crack in {}: {}"
        beside = say(words, grade.name, own, medium, _LOOKED_AT)
    later = colours_later(grade.nominal, grade.name) if soaks else NOTHING
    beyond = _beyond_its_own(grade, found) if found is not None else NOTHING
    remarks = (beside, beyond, _TWICE, _BY_COLOUR if soaks else "", later, "" if ends else row.note)
    return Temper(
        grade.name,
        soak(hours),
        found,
        None if heat is None else _left(row, heat, hours),
        soaks,
        table,
        soak(TABLE_HOURS),
        next((words for words in (embrittlement(*pair) for pair in ends) if words), NOTHING),
        tuple(one for one in remarks if one),
        row.stands,
        row.source,
    )


def told(answer: Temper) -> Iterator[Told]:
    """The temper, both ways."""
    wanted, left = answer.wanted, answer.left
    if wanted is not None:
        yield say(
            "{} to {}: {} for {}, which leaves {}.",
            answer.metal,
            span(wanted.softest, wanted.hardest),
            _heats(wanted.low, wanted.high),
            answer.time,
            _off(wanted.left, wanted.softest_left, wanted.hardest_left),
        )
        yield wanted.note
    if left is not None:
        yield say("{} after {} for {}: {}.", answer.metal, left.temperature, answer.time, _told_left(left))
        yield left.note if wanted is None else ""
    for_ = say(", for {}", span(wanted.softest, wanted.hardest)) if wanted and left else ""
    soaks = rows((one.time, _soak_heats(one), one.colour) for one in answer.soaks)
    yield Under(say("The same by other times at heat{}", for_), (soaks,))
    if answer.table:
        table = rows((one.temperature, one.hardness) for one in answer.table)
        yield Under(say("{} after {}:", answer.metal, answer.table_time), (table,))
    yield Under("", (answer.stands, answer.embrittles, *answer.remarks, f"Source: {answer.source}"))


def _its_own_range(grade: Grade) -> Words:
    if grade.tempering_low_c is None or grade.tempering_high_c is None:
        return NOTHING
    return say(", only its range of {} to {}", *map(celsius, (grade.tempering_low_c, grade.tempering_high_c)))


def _beyond_its_own(grade: Grade, found: TemperFor) -> Words:
    """That a hardness takes a hotter temper than a grade is tempered at, by more than is told apart."""
    low_c, high_c = grade.tempering_low_c, grade.tempering_high_c
    if low_c is None or high_c is None or found.nominal.value <= high_c + TEMPER_DOUBT_C:
        return NOTHING
    words = "{} is tempered at {} to {} as a rule, and {} is hotter: is it meant so?"
    return say(words, grade.name, celsius(low_c), celsius(high_c), found.high)


def _told_left(left: HardnessLeft) -> Words:
    if left.hardness is not None and left.softest is not None and left.hardest is not None:
        return say("about {}", _off(left.hardness, left.softest, left.hardest))
    assert left.harder_than is not None
    assert left.begins is not None
    return say("more than {:±}, with which the table begins, at {}", left.harder_than, left.begins)


def _left(row: TemperingRow, heat: TypedHeat, hours: float) -> HardnessLeft:
    first_c, first_hrc = row.points[0]
    try:
        found = tempered_hrc(row, heat.temperature_c, hours)
    except OutOfRange:
        # Below the table it is harder, which is an answer; beyond its other end nothing is known.
        if equal_temper_c(heat.temperature_c, hours, TABLE_HOURS, row.constant) > first_c:
            raise
        at = celsius(heat.temperature_c)
        begins = tempered_hrc(row, first_c, TABLE_HOURS)
        # A piece thicker than hardens through may have hardened less, here as where the table begins.
        if row.beyond_hrc or row.down_to:
            harder_than = rockwell(first_hrc - begins.softer_hrc)
        else:
            harder_than = rockwell(first_hrc, begins.softer_hrc / COVERAGE)
        return HardnessLeft(at, None, None, None, harder_than, celsius(first_c), as_words(row.note))
    by_heat_hrc = COVERAGE * _doubt_of_heat_hrc(row, heat, hours, found)
    softer, harder = (math.hypot(one, by_heat_hrc) for one in (found.softer_hrc, found.harder_hrc))
    return HardnessLeft(
        celsius(heat.temperature_c),
        rockwell(found.hrc, max(softer, harder) / COVERAGE),
        rockwell(found.hrc - softer),
        rockwell(found.hrc + harder),
        None,
        None,
        found.note,
    )


def _off(left: Figure, softest: Figure, hardest: Figure) -> Words:
    return left_words(left.value, left.value - softest.value, hardest.value - left.value)


def _doubt_of_heat_hrc(row: TemperingRow, heat: TypedHeat, hours: float, found: Tempered) -> float:
    """How far the doubt of the temperature moves the hardness, where the table goes so far."""
    moved = [0.0]
    for at_c in (heat.temperature_c - heat.doubt_c, heat.temperature_c + heat.doubt_c):
        try:
            moved.append(abs(tempered_hrc(row, at_c, hours).hrc - found.hrc))
        except OutOfRange:
            continue
    return max(moved)


def _soaks(row: TemperingRow, low_c: float, high_c: float, hours: float) -> Iterator[TimeAtATemper]:
    """The time asked for and the others, shortest first, with what each takes for the same hardness."""
    for other in sorted({*_OTHER_HOURS, hours}):
        try:
            first_c, last_c = (equal_temper_c(at_c, hours, other, row.constant) for at_c in (low_c, high_c))
        except OutOfRange:
            yield TimeAtATemper(soak(other), None, None, "")
            continue
        told_c = (first_c, last_c) if other <= LONGEST_RUN_HOURS else ()
        colour = " to ".join(dict.fromkeys(map(TEMPER_COLOURS.name_of, told_c)))
        yield TimeAtATemper(soak(other), celsius(first_c), celsius(last_c), colour)


def _soak_heats(one: TimeAtATemper) -> Words | str:
    if one.low is None or one.high is None:
        return "beyond what is published"
    return _heats(one.low, one.high)


def _heats(low: Figure, high: Figure) -> Words:
    return say("{}", Span(low.value, high.value, low.kind))
