"""Weighs a temper: whether its heat, or the colour it is run to, leaves the hardness that is asked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.fire.colours import NO_COLOUR, PAST_COLOURS
from coach.fire.temper_colours import TEMPER_COLOURS, TEMPER_DOUBT_C
from coach.ledger.hot_work import steels_of
from coach.ledger.hottest_temper import hottest_temper, left_by, soaked_at, tempers_before
from coach.ledger.plan import Plan
from coach.ledger.tempered import OwnCurves, quenched_in, row_of, temper_heat_c, thickness_mm
from coach.metals.grade_file import Grade
from coach.metals.tempering import (
    LONGEST_HOURS,
    LOWEST_C,
    RUN_HOURS,
    TABLE_HOURS,
    Tempered,
    past_the_table,
    quenched_band_hrc,
    temper_for,
    tempered_hrc,
)
from coach.metals.tempering_table import TemperingRow, hardened_through_mm
from coach.quantities import NOTHING, Figure, Kind, Limits, Span, Words, celsius, mm, say
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

#: As far as published rows of one grade lie apart, in HRC (judgement).
_APART_HRC: Final = 2.0
#: Up to so much carbon, in per cent, the hardness of a quench is told (from memory).
_MOST_CARBON_SHARE: Final = 1.2
_LEAVES: Final = "{} leaves {} at about {}, and {} is asked for{}."
_LEAVES_LESS: Final = (
    "{} is past where the table of {} ends: no more than {} is left of it, and {} is asked for."
)
_UNSURE: Final = (
    "{} leaves {} at about {}, so that {} is not sure: its quench hardens no more than about {} right "
    "through, and it is {} thick."
)
_OUT_OF_REACH: Final = "no temper makes {} harder than its quench leaves it, {} at most, and {} is asked for."
_DRAWN_BEFORE: Final = (
    "step {}, {}, draws it at {} already, and no cooler temper makes it harder again: that leaves {} at "
    "about {}, and {} is asked for."
)
_DRAWN_FURTHER: Final = (
    "{} leaves {} at about {}, and step {}, {}, asks for {}: leave out the hotter of the two, or say here "
    "what hardness is wanted in the end."
)


def wrongly_tempered(plan: Plan, step: Step, own: OwnCurves) -> Iterator[Words]:
    """What to say of each steel that a temper leaves harder or softer than it asks for.

    Where no time is said it may be a run of colours or a soak, and either may be meant by a figure.
    """
    wanted, soak, heat_c = step.targets.get("hardness"), step.targets.get("soak"), temper_heat_c(step)
    if wanted is None:
        yield from _drawn_further(plan, step, own)
        return
    if drawn := tuple(_drawn_before(plan, step, wanted, own)):
        yield from drawn
        return
    if heat_c is None:
        yield from _harder_than_quenched(plan, step, wanted)
        return
    by_colour = soak is None and bool(step.colour)
    hours = [RUN_HOURS] if by_colour else [RUN_HOURS, TABLE_HOURS]
    hours = [soak.nominal / 3600.0] if soak is not None else hours
    off_c = (0.0, -TEMPER_DOUBT_C, TEMPER_DOUBT_C) if by_colour else (0.0,)
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal, own)
        if row is None:
            continue
        if all(past_the_table(row, heat_c + off, each) for each in hours for off in off_c):
            yield from _softer_than_the_table(step, row, metal, wanted)
            continue
        left = [_left(row, metal, heat_c + off, each) for each in hours for off in off_c]
        known = [one for one in left if one is not None]
        if len(known) < len(left):
            continue
        heat = say("A run to {}, about {},", step.colour, celsius(heat_c)) if by_colour else celsius(heat_c)
        asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
        if any(one.may_be(wanted.low, wanted.high) for one in known):
            thick_mm = thickness_mm(plan, step)
            through_mm = hardened_through_mm(metal.name, quenched_in(plan, step, metal))
            within = any(_near(one, wanted) for one in known)
            if thick_mm is not None and through_mm is not None and thick_mm > through_mm and not within:
                yield say(_UNSURE, heat, metal.name, known[0].words, asked, mm(through_mm), mm(thick_mm))
            continue
        instead = _colour_for(row, wanted) if by_colour else NOTHING
        yield say(_LEAVES, heat, metal.name, known[0].words, asked, instead)


def _softer_than_the_table(step: Step, row: TemperingRow, metal: Grade, wanted: Limits) -> Iterator[Words]:
    """A hardness that nothing so hot leaves: it is no harder than what its table ends with."""
    heat_c = temper_heat_c(step)
    left = left_by(row, heat_c, LONGEST_HOURS) if heat_c is not None else None
    if heat_c is None or left is None or left.hrc + left.harder_hrc >= wanted.low:
        return
    most = Figure(left.hrc + left.harder_hrc, Kind.HARDNESS)
    asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
    yield say(_LEAVES_LESS, celsius(heat_c), metal.name, most, asked)


def _harder_than_quenched(plan: Plan, step: Step, wanted: Limits) -> Iterator[Words]:
    """A hardness that no heat leaves, where none is said."""
    for metal in steels_of(plan, step):
        if metal.carbon_share is not None and wanted.low > (most_hrc := _quenched_hrc(metal.carbon_share)):
            asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
            yield say(_OUT_OF_REACH, metal.name, Figure(most_hrc, Kind.HARDNESS), asked)


def _quenched_hrc(carbon_share: float) -> float:
    """The most that a quench leaves; of more carbon than is told, as of so much."""
    return quenched_band_hrc(min(carbon_share, _MOST_CARBON_SHARE))[1]


def _drawn_before(plan: Plan, step: Step, wanted: Limits, own: OwnCurves) -> Iterator[Words]:
    """A hardness that an earlier, hotter temper leaves nothing of."""
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal, own)
        ruling = hottest_temper(plan, step, row) if row is not None else step
        soaked = soaked_at(ruling, ())
        if row is None or ruling is step or soaked is None:
            continue
        left = left_by(row, soaked[0], soaked[2])
        if left is not None and left.hrc + left.harder_hrc < wanted.low:
            asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
            heat = celsius(soaked[0])
            yield say(_DRAWN_BEFORE, ruling.number, ruling.title, heat, metal.name, left.words, asked)


def _drawn_further(plan: Plan, step: Step, own: OwnCurves) -> Iterator[Words]:
    """The hardness that an earlier temper asks for, and that this one, which asks for none, draws away.

    What a job puts in to draw a temper further is meant to.
    """
    soaked = soaked_at(step, ())
    if soaked is None or step.again:
        return
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal, own)
        if row is None or hottest_temper(plan, step, row) is not step:
            continue
        left = left_by(row, soaked[0], soaked[2])
        for one in tempers_before(plan, step) if left is not None else ():
            wanted = one.targets.get("hardness")
            if left is not None and wanted is not None and left.hrc + left.harder_hrc < wanted.low:
                asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
                heat = celsius(soaked[0])
                yield say(_DRAWN_FURTHER, heat, metal.name, left.words, one.number, one.title, asked)
                return


def _near(left: Tempered, wanted: Limits) -> bool:
    """Whether what is most likely left lies within the limits, or as near as any table of one grade tells."""
    return wanted.low - _APART_HRC <= left.hrc <= wanted.high + _APART_HRC


def _left(row: TemperingRow, metal: Grade, heat_c: float, hours: float) -> Tempered | None:
    """What a temper leaves; None where the table does not reach.

    Cooler than it begins it lies between that and what the quench left, straight from 100 °C on (judgement).
    """
    try:
        return tempered_hrc(row, heat_c, hours)
    except OutOfRange:
        if metal.carbon_share is None or heat_c < LOWEST_C or past_the_table(row, heat_c, hours):
            return None
    first_c = row.points[0][0]
    begins = tempered_hrc(row, first_c, TABLE_HOURS)
    least_hrc, most_hrc = quenched_band_hrc(min(metal.carbon_share, _MOST_CARBON_SHARE))
    quenched_hrc = max(0.5 * (least_hrc + most_hrc), begins.hrc)
    share = min(max((first_c - heat_c) / (first_c - LOWEST_C), 0.0), 1.0)
    hrc = begins.hrc + share * (quenched_hrc - begins.hrc)
    return begins._replace(hrc=hrc, harder_hrc=max(begins.harder_hrc, most_hrc - hrc))


def _colour_for(row: TemperingRow, wanted: Limits) -> Words:
    """The colour that leaves a hardness in a run of minutes; nothing where the tables have none."""
    try:
        heat = temper_for(row, (wanted.low, wanted.high), RUN_HOURS).nominal
        colour = TEMPER_COLOURS.name_of(heat.value)
    except OutOfRange:
        return NOTHING
    if colour in (NO_COLOUR, PAST_COLOURS):
        return say("; for that take it to {}", heat)
    return say("; for that run it to {}, about {}", colour, heat)
