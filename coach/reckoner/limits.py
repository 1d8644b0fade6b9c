"""Between which heats the grades of a piece are worked, with the source of every figure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from coach.fire.limits import HeatsInCommon, KnownHeat, burning_limit, common_range, too_cold, worked_at
from coach.metals.grade_file import Grade
from coach.quantities import Figure, Kind, Words, say
from coach.quantities.takes import Typed
from coach.reckoner.asking.takes import grade_named
from coach.reckoner.asking.told import Caution, Told, Under, rows

SUMMARY = "Tell the heats a grade is forged, welded and burnt at."
SOURCES = (
    "Sources: those of each grade, told beside its figures with how far they are confirmed; the burning "
    "limit by the carbon alone (judgement)."
)
TAKES = (grade_named('such as C45, 1084 or "wrought iron"', typed=Typed.SEVERAL),)

#: What sparking steel does (common practice, no source).
BURNING = (
    "Steel that throws sparks in the fire is burning: turn your face away as you take it out, and cut off "
    "what has burnt, for it crumbles under the hammer and cannot be mended."
)


class HeatsOfAGrade(NamedTuple):
    """The heats of one grade."""

    metal: str  # its name
    carbon: Figure | None  # None when it is not known
    forging_low: KnownHeat  # the lowest
    forging_high: KnownHeat  # the highest
    welding_low: KnownHeat  # the lowest
    welding_high: KnownHeat  # the highest
    burning: KnownHeat  # above which it must be feared to burn
    back_below: Figure | None  # back to the fire below this
    stop_below: Figure | None  # not one blow below this; None where nobody knows
    cold: Words  # both in a sentence
    cold_source: str  # where they are from


class HeatLimits(NamedTuple):
    """The heats of every grade asked for, and of all together."""

    grades: tuple[HeatsOfAGrade, ...]  # as they were asked for
    forging: HeatsInCommon  # that all of them are forged at in one piece
    welding: HeatsInCommon  # that all of them are welded at in one piece


def reckon(grade: Sequence[Grade]) -> HeatLimits:
    """The heats of each grade, once for each, and of all in one piece. Raises OutOfRange.

    Sources: each grade's own file, and `coach.fire.limits`.

    >>> from coach.metals.grade import grade
    >>> reckon([grade("wrought iron"), grade("C80")]).forging.high.value
    1100.0
    """
    grades = list({one.name: one for one in grade}.values())
    forging, welding = (common_range(grades, welding=weld) for weld in (False, True))
    return HeatLimits(tuple(map(_heats, grades)), forging, welding)


def told(answer: HeatLimits) -> Iterator[Told]:
    """The heats of each grade, and of all of them in one piece."""
    for one in answer.grades:
        heats = (
            ("forge from", one.forging_high),
            ("forge down to", one.forging_low),
            ("weld from", one.welding_low),
            ("weld up to", one.welding_high),
            ("burns above", one.burning),
        )
        yield Under(
            one.metal if one.carbon is None else say("{}, {} carbon", one.metal, one.carbon),
            (
                rows((label, heat.temperature or "unknown", heat.source) for label, heat in heats),
                one.cold,
                "" if one.back_below is None else f"Source: {one.cold_source}",
            ),
        )
    if len(answer.grades) > 1:
        yield Under("All in one piece", (answer.forging.sentence, answer.welding.sentence))
    yield Caution(BURNING)


def _heats(grade: Grade) -> HeatsOfAGrade:
    back, stop, sentence, source, *_ = too_cold(grade)
    return HeatsOfAGrade(
        grade.name,
        None if grade.carbon_share is None else Figure(grade.carbon_share, Kind.CONTENT),
        *worked_at(grade),
        *worked_at(grade, welding=True),
        burning_limit(grade),
        back,
        stop,
        sentence,
        source,
    )
