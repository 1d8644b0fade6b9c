"""Weighs a treatment against its steel's card: a normalising too hot, a soak too long, a bath too mild."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.ledger.hottest_temper import left_by
from coach.ledger.plan import Plan
from coach.ledger.tempered import quenched_in, row_of, temper_heat_c, thickness_mm
from coach.ledger.weigh_heat import told_off_c
from coach.metals.baths import is_fiercer
from coach.metals.grade_file import Grade
from coach.metals.hardening import soaked_s
from coach.metals.tempering import HIGHEST_C, TABLE_HOURS
from coach.operations import Does
from coach.quantities import Kind, Span, Words, celsius, mm, say, seconds
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
    yield from _may_be_left_softer(plan, step, metal)


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


def _may_be_left_softer(plan: Plan, step: Step, metal: Grade) -> Iterator[Words]:
    """A hardness that may well be missed, for its steel was quenched in a milder bath than its own."""
    wanted, heat_c, soak = step.targets.get("hardness"), temper_heat_c(step), step.targets.get("soak")
    if not step.does(Does.TEMPERS) or wanted is None or heat_c is None or heat_c >= HIGHEST_C:
        return
    row, bath = row_of(plan, step, metal), quenched_in(plan, step, metal)
    if row is None or metal.quench is None or not is_fiercer(metal.quench.medium, bath) or bath == "air":
        return
    left = left_by(row, heat_c, soak.nominal / 3600.0 if soak is not None else TABLE_HOURS)
    if left is None or not left.may_be(wanted.low, wanted.high):
        return
    if left.hrc - left.softer_hrc < wanted.low - _SOFTER_BY_HRC:
        words = (
            "quenched in {}, {} so thick is left at {} by {}, and {} is wanted: {} is surer of it. Is it "
            "meant so?"
        )
        asked = Span(wanted.low, wanted.high, Kind.HARDNESS)
        yield say(words, bath, metal.name, left.words, celsius(heat_c), asked, metal.quench.medium)
