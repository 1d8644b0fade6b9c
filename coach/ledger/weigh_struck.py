"""Weighs the ends of a recipe that a hammer strikes: hardened and left hard, chips fly from them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.ledger.tempered import NOT_TAUGHT, OwnCurves, row_of, temper_heat_c
from coach.metals.tempering import (
    RUN_HOURS,
    TABLE_HOURS,
    past_the_table,
    quenched_band_hrc,
    tempered_hrc,
)
from coach.metals.wanted_hardness import PartOfATool, struck_part
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.quantities import Figure, Kind, Span, Words, as_words, say
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Step

#: ASME B107.47M-1998 §4.3.2, by the table of wanted hardness.
_TOO_HARD: Final = (
    "{} is an end that a hammer strikes, and is left {}: chips fly from one that is harder than {} (ASME "
    "B107.47M). Keep it out of the fire and the quench, or temper it alone and write hardness 30 to {}."
)


def struck_hard(plan: Plan, own: OwnCurves = NOT_TAUGHT) -> Iterator[tuple[Step, str, Words]]:
    """Struck ends left harder than any standard lets them be, each with the step that leaves them so.

    A later fire undoes a hardening, and so does a temper that is soft enough. What a temper leaves of a
    steel without a table nobody can tell, and nothing is said of it.
    """
    left: dict[str, tuple[Step, Words]] = {}
    for step in plan.recipe.steps:
        if step.does(Does.QUENCHES):
            for zone, part in _struck(plan, step):
                if words := _quenched(plan, step._replace(zones=(zone,))):
                    left[zone] = step, _told(zone, part, words)
        elif step.does(Does.TEMPERS):
            for zone, part in _struck(plan, step):
                if left.pop(zone, None) and (words := _tempered(plan, step, zone, part, own)):
                    left[zone] = step, _told(zone, part, words)
        elif step.heats and step.heat_kind is not HeatKind.COLD:
            for zone in (*step.zones, *step.heated):
                left.pop(zone, None)
    for zone, (step, words) in left.items():
        yield step, zone, words


def _struck(plan: Plan, step: Step) -> Iterator[tuple[str, PartOfATool]]:
    """The struck ends in a step's fire: what lies in that of a quench is hardened with it."""
    for zone in dict.fromkeys((*step.zones, *step.heated)):
        part = struck_part(plan.recipe.piece_of(zone).name, zone)
        if part is not None:
            yield zone, part


def _told(zone: str, part: PartOfATool, left: Words) -> Words:
    return say(_TOO_HARD, zone, left, Figure(_most_hrc(part), Kind.HARDNESS), f"{part.high.value:g}")


def _most_hrc(part: PartOfATool) -> float:
    """The most that any standard lets such a part be; the coach's own proposal may be departed from."""
    return max([part.high.value, *(one.high.value for one in part.published)])


def _quenched(plan: Plan, step: Step) -> Words | None:
    """How hard a quench leaves what is not tempered; None where it hardens nothing."""
    for metal in steels_of(plan, step):
        if metal.carbon_share is None:
            return as_words("as the quench makes it")
        return say("{} and untempered", Span(*quenched_band_hrc(metal.carbon_share), Kind.HARDNESS))
    return None


def _tempered(plan: Plan, step: Step, zone: str, part: PartOfATool, own: OwnCurves) -> Words | None:
    """How hard a temper leaves it, by what is asked and else by its heat; None where that is soft enough."""
    asked, heat_c, soak = step.targets.get("hardness"), temper_heat_c(step), step.targets.get("soak")
    if asked is not None:
        hard = Span(max(asked.low, 1.0), min(asked.high, 100.0), Kind.HARDNESS)
        return say("{}", hard) if asked.high > _most_hrc(part) else None
    if heat_c is None:
        return None
    hours = soak.nominal / 3600.0 if soak is not None else RUN_HOURS if step.colour else TABLE_HOURS
    step = step._replace(zones=(zone,))
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal, own)
        if row is None or past_the_table(row, heat_c, hours):
            continue
        try:
            left = tempered_hrc(row, heat_c, hours)
        except OutOfRange:  # below its table, which begins harder than any of this
            return say("more than {}", Figure(row.points[0][1], Kind.HARDNESS))
        if left.hrc > _most_hrc(part):
            return say("{}", left.words)
    return None
