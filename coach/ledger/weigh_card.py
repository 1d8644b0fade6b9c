"""Weighs a treatment against its steel's card: a normalising too hot, a soak too long, a bath too mild."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.ledger.hottest_temper import hottest_temper, left_by
from coach.ledger.plan import Plan
from coach.ledger.tempered import NOT_TAUGHT, quenched_in, row_of, temper_heat_c, thickness_mm
from coach.ledger.weigh_heat import told_off_c
from coach.ledger.weigh_temper import wrongly_tempered
from coach.metals.baths import is_fiercer
from coach.metals.grade_file import Grade
from coach.metals.hardening import soaked_s
from coach.metals.tempering import HIGHEST_C, RUN_HOURS, TABLE_HOURS, Tempered, temper_for
from coach.metals.tempering_table import TemperingRow
from coach.operations import Does
from coach.quantities import Kind, Limits, Span, Words, celsius, mm, run_on, say, seconds
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

#: A hardening soak grows by an hour for each inch of thickness (from memory).
SOAK_PER_MM_S: Final = 3600.0 / 25.4
#: A normalising heat this far above its steel's own, in °C, is no slip of reading it (judgement).
_HOTTER_BY_C: Final = 20.0
#: So much softer than is wanted, in HRC, is more than tables of one grade differ by (judgement).
_SOFTER_BY_HRC: Final = 3.0


def unlike_its_card(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """What is to be asked of a step that treats a steel otherwise than its grade's file says."""
    yield from _normalised_hotter(step, metal)
    yield from _soaked_longer(plan, step, metal)
    yield from _may_be_missed(plan, step, metal)


def _normalised_hotter(step: Step, metal: Grade) -> Iterator[Words]:
    low_c, high_c, heat_c = metal.normalising_low_c, metal.normalising_high_c, step.temperature_c
    if not step.does(Does.NORMALISES) or low_c is None or high_c is None or heat_c is None:
        return
    if heat_c - told_off_c(step) > high_c + _HOTTER_BY_C:
        words = "{} is hotter than {} is normalised at, {}, and its grain grows: is it meant so?"
        yield say(words, celsius(heat_c), metal.name, Span(low_c, high_c, Kind.TEMPERATURE))


def _soaked_longer(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    soak = step.targets.get("soak")
    if not step.does(Does.QUENCHES) or soak is None or not metal.composition:
        return
    own_s = soaked_s(metal)
    thick_mm = thickness_mm(plan, step) or 0.0
    if soak.nominal > own_s[1] + SOAK_PER_MM_S * thick_mm:
        words = (
            "{} is a long soak at a hardening heat for {}, {} thick: {} once it is at its heat are enough, "
            "and its skin loses carbon. Is it meant so?"
        )
        yield say(words, seconds(soak.nominal), metal.name, mm(thick_mm), Span(*own_s, Kind.TIME))


def _may_be_missed(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """A hardness that may well be missed: by its heat, or quenched in a milder bath than its steel's own."""
    wanted, heat_c, soak = step.targets.get("hardness"), temper_heat_c(step), step.targets.get("soak")
    if not step.does(Does.TEMPERS) or wanted is None or heat_c is None or heat_c >= HIGHEST_C:
        return
    row, bath = row_of(plan, step, metal), quenched_in(plan, step, metal)
    if row is None or bath == "air" or hottest_temper(plan, step, row) is not step:
        return
    hours = soak.nominal / 3600.0 if soak is not None else RUN_HOURS
    left = left_by(row, heat_c, hours)
    if left is None or any(wrongly_tempered(plan, step, NOT_TAUGHT)):
        return  # what cannot come is told as such
    if soak is None and not step.colour and not _beside(left_by(row, heat_c, TABLE_HOURS), wanted):
        return  # a figure without a time may be meant as a soak, and that leaves what is asked for
    if _beside(left, wanted):
        yield _likely_beside(row, step, metal, left, heat_c)
        return
    if metal.quench is None or not is_fiercer(metal.quench.medium, bath):
        return
    if left.hrc - left.softer_hrc < wanted.low - _SOFTER_BY_HRC:
        words = (
            "quenched in {}, {} so thick is left at {} by {}, and {} is wanted: {} is surer of it. Is it "
            "meant so?"
        )
        asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
        yield say(words, bath, metal.name, left.words, celsius(heat_c), asked, metal.quench.medium)


def _beside(left: Tempered | None, wanted: Limits) -> bool:
    """Whether what is most likely left lies outside the limits, in the whole HRC that it is told in."""
    return left is not None and not wanted.low <= round(left.hrc) <= wanted.high


def _likely_beside(row: TemperingRow, step: Step, metal: Grade, left: Tempered, heat_c: float) -> Words:
    """A hardness that can come, and is more likely missed: with the heat that is likeliest to leave it."""
    wanted, soak = step.targets["hardness"], step.targets.get("soak")
    by_colour = soak is None and bool(step.colour)
    hours = soak.nominal / 3600.0 if soak is not None else RUN_HOURS
    asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
    heat = say("{}, about {},", step.colour, celsius(heat_c)) if by_colour else celsius(heat_c)
    told = say("{} leaves {} at {}, and {} is wanted.", heat, metal.name, left.words, asked)
    try:
        found = temper_for(row, (wanted.low, wanted.high), hours)
    except OutOfRange:
        return run_on((told, say("Is it meant so?")))
    surer = say("{} for {} is surer of it. Is it meant so?", found.nominal, seconds(3600.0 * hours))
    return run_on((told, surer))
