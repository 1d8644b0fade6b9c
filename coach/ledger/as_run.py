"""A temper that was run in minutes, entered as figures: what it did is what its soak does in hours."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from coach.ledger.course import Mark, Outcome, ReadingMark
from coach.ledger.plan import Plan
from coach.ledger.verdict import Verdict, judge
from coach.ledger.wanted_apart import wanted_apart
from coach.operations import Does
from coach.operations.gauges import BY_COLOUR
from coach.quantities import Limits
from coach.recipe.model import Step

#: A run of colours takes no longer than this, in seconds (judgement).
LONGEST_RUN_S: Final = 900.0

_SOAK, _TEMPERATURE = "soak", "temperature"
_PROOFS = ("hardness", "file_test")


def is_run_to_colour(step: Step, zone: str, outcomes: Sequence[Outcome]) -> bool:
    """Whether a zone is tempered in a run of colours: its heat that was read last and stands is one."""
    heats = [one for one in outcomes if one.mark.reading[:2] == (zone, _TEMPERATURE) and not one.questioned]
    heat = heats[-1].outdone_by or heats[-1].mark.reading if heats else None
    return heat is not None and step.does(Does.TEMPERS) and heat.gauge == BY_COLOUR


def wanted_beside(
    plan: Plan, step: Step, zone: str, dimension: str, outcomes: Sequence[Outcome]
) -> Limits | None:
    """What `wanted_apart` tells; of a soak nothing in a run of colours, which takes the minutes it takes."""
    if dimension == _SOAK and is_run_to_colour(step, zone, outcomes):
        return None
    return wanted_apart(plan, step, zone, dimension)


def beside_its_soak(
    step: Step, outcome: Outcome, outcomes: Sequence[Outcome], as_typed: Sequence[Mark]
) -> Outcome:
    """A colour beside a soak that was good by a thermometer, which counts: after it a colour tells nothing.

    A heat, a hardness or a file test that was entered between them makes the colour one of another run.
    """
    reading = outcome.mark.reading
    if reading.dimension != _TEMPERATURE or reading.gauge != BY_COLOUR or not step.does(Does.TEMPERS):
        return outcome
    soaks = [one.mark.reading.size_mm for one in outcomes if one.mark.reading[:2] == (reading.zone, _SOAK)]
    before = [one.entry for one in as_typed]
    proofs = [(reading.zone, one) for one in _PROOFS]
    for mark in reversed(as_typed[: before.index(outcome.mark.entry)]):
        if not isinstance(mark, ReadingMark) or mark.reading[:2] in proofs:
            break
        if mark.reading[:2] != (reading.zone, _TEMPERATURE) or mark.reading.gauge == BY_COLOUR:
            continue
        heat = next((one for one in outcomes if one.mark.entry == mark.entry), None)
        if heat is None or heat.verdict is not Verdict.GOOD or not soaks or soaks[-1] <= LONGEST_RUN_S:
            break
        return outcome._replace(judged=heat.judged, limits=heat.limits, soaked=None, outdone_by=mark.reading)
    return outcome


def judged_as_run(plan: Plan, step: Step, outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """A heat over what a soak asks for, judged by the minutes read beside it where those make it good."""
    reading, soak = outcome.mark.reading, step.targets.get(_SOAK)
    over = outcome.judged is not None and outcome.verdict is not Verdict.GOOD and not outcome.judged.below
    if not over or soak is None or not step.does(Does.TEMPERS) or reading.gauge == BY_COLOUR:
        return outcome
    wanted = wanted_apart(plan, step, reading.zone, reading.dimension)
    beside = [one.mark.reading for one in outcomes if one.mark.reading[:2] == (reading.zone, _SOAK)]
    if wanted is None or not beside or not 0.0 < beside[-1].size_mm <= min(LONGEST_RUN_S, soak.low):
        return outcome
    from coach.ledger.tempered import as_a_run

    run = as_a_run(plan, step, wanted, beside[-1].size_mm / 3600.0)
    judged = judge(reading.size_mm, reading.heat_doubt_c, run, grows=None)
    if judged.verdict is Verdict.OUT or run == wanted:
        return outcome
    return outcome._replace(judged=judged, limits=run, soaked=wanted)
