"""Between which heats the grades of a piece are worked, with the source of every figure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from coach.fire.limits import (
    CommonRange,
    Limit,
    burning_limit,
    common_range,
    forging_range,
    too_cold,
    welding_range,
)
from coach.metals.grade import Grade
from coach.quantities import Shown, write_temperature
from coach.telling.words import write


class HeatLimitView(NamedTuple):
    """One heat, or why it is not known."""

    temperature_c: float | None  # the heat; `null` when it is not known
    text: str  # as shown, empty when not known
    source: str  # with how far it is confirmed, in brackets at its end


class GradeLimitsView(NamedTuple):
    """The heats of one grade."""

    metal: str  # its name
    carbon: float | None  # per cent by mass
    forging_low: HeatLimitView  # the lowest forging heat
    forging_high: HeatLimitView  # the highest
    welding_low: HeatLimitView  # the lowest welding heat
    welding_high: HeatLimitView  # the highest
    burning: HeatLimitView  # the heat above which it must be feared to burn
    back_below_c: float | None  # back to the fire
    stop_below_c: float  # not one blow more
    cold: str  # both in a sentence
    cold_source: str  # where they are from


class CommonView(NamedTuple):
    """The heats that all the grades stand in one piece; None where there are none."""

    low_c: float | None  # the lowest; `null` when no heat suits all
    high_c: float | None  # the highest; `null` likewise
    ceiling_c: float | None  # what none of them may pass; `null` when it is not known
    low_set_by: str  # the grade that sets the lowest
    high_set_by: str  # the grade that sets the highest
    sentence: str  # what to do


class LimitsAnswer(NamedTuple):
    """The heats of every grade asked for, and of all together."""

    grades: tuple[GradeLimitsView, ...]  # a list of grades, as they were asked for
    forging: CommonView  # the heats that all of them are forged at in one piece
    welding: CommonView  # and those that they are welded at
    caution: str  # what can hurt


#: What sparking steel does (common practice, no source).
BURNING: Final = (
    "Steel that throws sparks in the fire is burning: turn your face away as you take it out, and cut off "
    "what has burnt, for it crumbles under the hammer and cannot be mended."
)


def limits(grades: Sequence[Grade], shown: Shown) -> LimitsAnswer:
    """The heats of each grade, once for each, and of all in one piece. Raises NothingToHeat and NoSolidus.

    Sources: each grade's own file, and `coach.fire.limits`.

    >>> from coach.metals.grade import grade
    >>> limits([grade("wrought iron"), grade("C80")], Shown()).forging.high_c
    1100.0
    """
    grades = list({one.name: one for one in grades}.values())
    found = tuple(_grade(one, shown) for one in grades)
    forging, welding = (_common(common_range(grades, welding=weld), shown) for weld in (False, True))
    return LimitsAnswer(found, forging, welding, BURNING)


def _grade(grade: Grade, shown: Shown) -> GradeLimitsView:
    forging, welding = forging_range(grade), welding_range(grade)
    cold = too_cold(grade)
    return GradeLimitsView(
        metal=grade.name,
        carbon=grade.carbon_share,
        forging_low=_limit(forging.low, shown),
        forging_high=_limit(forging.high, shown),
        welding_low=_limit(welding.low, shown),
        welding_high=_limit(welding.high, shown),
        burning=_limit(burning_limit(grade), shown),
        back_below_c=cold.warn_below_c,
        stop_below_c=cold.stop_below_c,
        cold=write(cold.sentence, shown),
        cold_source=cold.source,
    )


def _limit(limit: Limit, shown: Shown) -> HeatLimitView:
    text = "" if limit.temperature_c is None else write_temperature(limit.temperature_c, shown)
    return HeatLimitView(limit.temperature_c, text, limit.source)


def _common(common: CommonRange, shown: Shown) -> CommonView:
    return CommonView(*common[:-1], write(common.sentence, shown))
