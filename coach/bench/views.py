"""Makes the views of a job out of its state."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from coach.bench.checks import checks_of
from coach.bench.clock import clock_of
from coach.bench.learned import learned_of_shop
from coach.bench.replay import JobState, StepRecord, corrections
from coach.bench.righting import not_mended, rights
from coach.bench.sizes import drawn_sizes, metal_to_spare
from coach.bench.skin import short_skin, skins_in_hand
from coach.bench.standing import (
    DoneView,
    NoteView,
    Standing,
)
from coach.bench.step import StepToDo, step_to_do
from coach.forms import label
from coach.ledger.course import Course
from coach.ledger.forecast import Forecast
from coach.ledger.verdict import PlanState, SizeState
from coach.ledger.workpiece import SPREAD
from coach.log.entries import Entry
from coach.log.kinds.note import Note
from coach.operations import names_of, operation
from coach.quantities import Shown
from coach.recipe.model import Recipe, Step
from coach.telling.reasons import reason_text
from coach.telling.righting import failed_reason
from coach.telling.skin import short_of_stone
from coach.telling.words import write


def done_view(record: StepRecord) -> DoneView:
    """A finished step."""
    verdicts: dict[str, str] = {}
    for outcome in record.course.outcomes if record.course else ():
        if outcome.judged is not None and not outcome.questioned:
            reading = outcome.mark.reading
            verdicts[label(reading.zone, reading.dimension)] = outcome.judged.verdict.value
    return DoneView(
        number=record.step.number,
        title=record.step.title,
        heats=record.heats,
        entry=record.done_entry or 0,
        verdicts=tuple(verdicts.items()),
    )


def rest_reason(recipe: Recipe, finished: int, marked_in_hand: bool, heat_name: str = "") -> str:
    """Why the job may not be put down now; "" when it may.

    Args:
        recipe: the recipe.
        finished: how many steps are finished.
        marked_in_hand: whether work on the step in hand has begun.
        heat_name: what its last heat was for, "" before there is one or where heats have no names.
    """
    steps = recipe.steps
    pending: dict[str, Step] = {}  # by zone, the step that may not be left
    for at, step in enumerate(steps[: finished + (1 if marked_in_hand else 0)]):
        for zone in {*step.zones, *step.heated, *((step.lays,) if step.lays else ())} & pending.keys():
            mended_by = operation(pending[zone].operation).UNSAFE_UNTIL
            cures = mended_by is not None and step.does(mended_by)
            if cures and at < finished:  # a weld or a temper that has only begun makes nothing safe yet
                del pending[zone]
        if operation(step.operation).UNSAFE_UNTIL is not None:
            pending |= dict.fromkeys(step.zones, step)
    if pending:
        by_number = {step.number: step for step in pending.values()}
        waiting = [by_number[number] for number in sorted(by_number)]
        todo = operation(waiting[-1].operation)
        until = " or ".join(names_of(todo.UNSAFE_UNTIL)) if todo.UNSAFE_UNTIL is not None else ""
        named = " and ".join(f"step {step.number}, {step.title}" for step in waiting)
        return (
            f"{named[0].upper()}{named[1:]}, must be followed by its {until} "
            f"before the job may rest: {todo.UNSAFE_WHY}."
        )
    here = steps[finished] if finished < len(steps) else None
    if here is not None and (why := operation(here.operation).UNSAFE_HEATS.get(heat_name)):
        return (
            f"Step {here.number}, {here.title}, stands at its {heat_name} heat: go on with it before the job "
            f"may rest, for {why}."
        )
    if finished and not marked_in_hand and not steps[finished - 1].may_rest:
        last = steps[finished - 1]
        return f"The recipe says not to rest after step {last.number}, {last.title}."
    return ""


def standing_of(
    job: str, entries: Sequence[Entry], out: frozenset[int], state: JobState, shown: Shown
) -> Standing:
    """Everything about a job at one moment."""
    recipe = state.plan.recipe
    by_number = {entry.number: entry for entry in entries} | corrections(entries, out)
    course = state.course()
    found = state.forecast(course)
    step = state.step
    checks = checks_of(state, course, found, by_number) if course is not None else ()
    reason = reason_text(found.reason, shown) if found else ""
    trouble = state.trouble or (reason if found and found.trouble else "")
    reason = trouble or reason
    heat_name = _heat_name(step, state.heats)
    blocked = rest_reason(recipe, len(state.records), bool(state.marks), heat_name if state.heats else "")
    chance = found.chance if found else 0.0
    verdict = found.state if found else PlanState.OFF_PLAN
    skinned = skins_in_hand(state, found) if found is not None and not trouble else ()
    short = short_skin(skinned)
    if short is not None and verdict is PlanState.ON_PLAN:
        verdict, reason = PlanState.TIGHT, write(short_of_stone(short), shown)
    if step is None and found is not None and not trouble and _all_good(found):
        verdict, reason = PlanState.ON_PLAN, "Every step is done, and every size is within the drawing."
    listed = rights(state, course, entries, out)
    failed = not_mended(state, course, listed)
    if failed is not None and verdict is PlanState.ON_PLAN:
        verdict, reason = PlanState.TIGHT, failed_reason(failed, shown)
    return Standing(
        job=job,
        title=recipe.title,
        recipe=recipe.name,
        state=state.status,
        last_entry=entries[-1].number,
        began_at=entries[0].at,
        last_at=entries[-1].at,
        step=_step_in_hand(state, course),
        steps=len(recipe.steps),
        heats=state.heats,
        heat_name=heat_name,
        heats_total=state.heats_total,
        clock=clock_of(state),
        checks=checks,
        next_check=next(
            (check.name for check in checks if check.is_open),
            None,
        ),
        sizes=drawn_sizes(recipe, found) if found else (),
        spares=metal_to_spare(recipe, found) if found else (),
        learned=learned_of_shop(state, course),
        skins=skinned,
        chance=chance if isfinite(chance) else 0.0,
        verdict=verdict.value,
        reason=reason,
        trouble=trouble,
        questioned=tuple(check for check in checks if check.is_questioned),
        notes=_notes(entries, out),
        to_right=listed,
        done=tuple(done_view(record) for record in state.records),
        coming=tuple(s.title for s in recipe.steps[len(state.records) + 1 :]),
        may_rest=not blocked,
        rest_reason=blocked,
        units=shown.system,
    )


def _all_good(found: Forecast) -> bool:
    """Whether a finished tool is as it is drawn: its sizes count then, not what its metal might have made."""
    return all(size.state is SizeState.GOOD for zone in found.zones.values() for size in zone.sizes)


def _step_in_hand(state: JobState, course: Course | None) -> StepToDo | None:
    if state.step is None:
        return None
    return step_to_do(state.plan, state.step, _spread_offset(state, course), course)


def _heat_name(step: Step | None, heats: int) -> str:
    """What the heat in hand is for, or the first before any is marked; "" where heats have no names."""
    if step is None or not step.heat_names:
        return ""
    if heats > len(step.heat_names):
        return operation(step.operation).HEAT_NAMES[-1]  # what comes on top of the plan mends
    return step.heat_names[max(heats, 1) - 1]


def _spread_offset(state: JobState, course: Course | None) -> float:
    now = course.now if course is not None else state.start
    return now.belief.mean(SPREAD) if now is not None else 0.0


def _notes(entries: Sequence[Entry], out: frozenset[int]) -> tuple[NoteView, ...]:
    found = []
    for entry in entries:
        if isinstance(entry.body, Note) and entry.number not in out:
            found.append(NoteView(entry.number, entry.body.text, entry.body.step, entry.at))
    return tuple(found)
