"""What the metal cannot do in the steps ahead of a job: what a check finds, less what is done since."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.by_own_shop import by_own_shop
from coach.bench.heat_treated import is_hard_after_all, is_hardness_told
from coach.bench.in_file import findings_of_job
from coach.bench.job_state import JobState
from coach.bench.own_tempers import own_curves_of
from coach.ledger.plan import Plan
from coach.ledger.tempered import OwnCurves
from coach.ledger.weigh import Cannot, Finding, is_left_soft_in_air, weigh
from coach.ledger.working import reshapes
from coach.operations import Does
from coach.recipe.model import Step

#: What a piece that was worked may do otherwise than the plan of it.
_BY_THE_PIECE = frozenset(
    {
        *(Cannot.MAKE_DRAWING, Cannot.GATHER, Cannot.MAKE_SIZE, Cannot.SEAT, Cannot.DRIVE_UP, Cannot.OPEN),
        Cannot.REMOVE_SKIN,
    }
)


#: The plan that was weighed last, by which curves, and what was found: a reading changes neither.
_LAST_WEIGHED: list[tuple[Plan, OwnCurves, tuple[Finding, ...]]] = []


def _weighed(plan: Plan, own: OwnCurves) -> tuple[Finding, ...]:
    """What is found of a plan, kept until another one is asked about."""
    last = _LAST_WEIGHED[0] if _LAST_WEIGHED else None
    if last is None or last[0] is not plan or last[1] != own:
        last = plan, own, weigh(plan, own)
        _LAST_WEIGHED[:] = [last]
    return last[2]


def findings_ahead(state: JobState, step: Step) -> tuple[Finding, ...]:
    """What the metal cannot do from here on; how a zone that was worked comes out the forecast tells."""
    worked = [record.step for record in state.records] + ([step] if state.marks else [])
    anew = state.plan is not state.first_plan  # what is marked out is so for what was asked then
    marked = [one.step for one in state.records if anew and one.step.does(Does.MARKS_OUT)]
    ahead = [
        one
        for one in _weighed(state.plan, own_curves_of(state))
        if (
            one.step >= step.number
            or not one.step
            or _is_too_short_still(state.plan, one, worked)
            or is_left_soft_in_air(state.plan, one)
        )
        and not (is_left_soft_in_air(state.plan, one) and is_hard_after_all(state, one.step))
        and not (one.what in _BY_THE_PIECE and any(reshapes(done, one.zone) for done in worked))
        and not (one.what is Cannot.GATHER and any(one.zone in done.zones for done in marked))
        and not (one.what is Cannot.TEMPER_TO and _is_told_otherwise(state, one.step))
    ]
    counted = [entry.body for entry in state.counted.values()]
    forecast = state.forecast()
    sizes = forecast.sizes(state.plan.recipe) if forecast is not None else ()
    return findings_of_job(state, by_own_shop(ahead, sizes, counted))


def _is_too_short_still(plan: Plan, found: Finding, worked: Sequence[Step]) -> bool:
    """Whether it is about a bar that is too short, and nothing was cut or shaped of it yet."""
    zones = plan.recipe.pieces[found.piece].zones if found.what is Cannot.SUFFICE else ()
    return bool(zones) and not any(reshapes(done, zone) for done in worked for zone in zones)


def _is_told_otherwise(state: JobState, number: int) -> bool:
    """Whether what a temper leaves says nothing of the tool: measured, or hardened again after it."""
    steps = state.plan.recipe.steps
    zones = {*steps[number - 1].zones}
    again = any(one.again and one.does(Does.QUENCHES) and zones & {*one.zones} for one in steps[number:])
    return again or is_hardness_told(state, number)
