"""Whether a job may be put down, what to do with its fire then, and what to measure when it is resumed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.forms import FormError
from coach.ledger.course import AmendmentMark, Course
from coach.ledger.zone_forecast import expected_size
from coach.operations import Does, names_of, operation
from coach.operations.does import HeatKind, Scope
from coach.operations.measures import MARK
from coach.quantities import NOTHING, Figure, Words, mm, run_on, say
from coach.recipe.model import Step, spoken_of


def heat_name(state: JobState) -> str:
    """What the heat in hand is for, or the first before any is marked; "" where heats have no names."""
    step, heats = state.step, state.heats
    if step is None or not step.heat_names:
        return ""
    if heats > len(step.heat_names):
        return operation(step.operation).HEAT_NAMES[-1]  # what comes on top of the plan mends
    return step.heat_names[max(heats, 1) - 1]


class Held(NamedTuple):
    """What keeps a job from being put down."""

    reason: Words = NOTHING  # why; nothing when it may be
    do_now: str = ""  # what is to be done at once, in two words, as "temper now"; "" when it may be


def held(state: JobState) -> Held:
    """Why the job may not be put down now, and what is to be done instead."""
    steps, finished, begun = state.plan.recipe.steps, len(state.records), bool(state.marks)
    pending = waiting_at(steps, finished, begun=begun)
    if pending:
        by_number = {step.number: step for step in pending.values()}
        waiting = [by_number[number] for number in sorted(by_number)]
        todo = operation(waiting[-1].operation)
        until = todo.UNSAFE_UNTIL
        mends = [s.operation for s in steps[finished:] if until is not None and s.does(until)]
        mended = mends[0] if mends else " or ".join(names_of(until) if until is not None else ())
        steps_named = ("Step {}, {}", *["step {}, {}"] * (len(waiting) - 1))
        each = zip(steps_named, waiting, strict=True)
        named = run_on((say(words, step.number, step.title) for words, step in each), " and ")
        clause = "{}, must be followed by its {} before the job may rest: {}."
        return Held(say(clause, named, mended, todo.UNSAFE_WHY), f"{mended} now")
    here = steps[finished] if finished < len(steps) else None
    last_heat = heat_name(state) if state.heats else ""
    if here is not None and (why := operation(here.operation).UNSAFE_HEATS.get(last_heat)):
        clause = "Step {}, {}, stands at its {} heat: go on with it before the job may rest, for {}."
        return Held(say(clause, here.number, here.title, last_heat, why), f"{here.operation} now")
    if finished and not begun and not steps[finished - 1].may_rest:
        last = steps[finished - 1]
        clause = "The recipe says not to rest after step {}, {}."
        return Held(say(clause, last.number, last.title), "go on now")
    return Held()


def waiting_at(steps: Sequence[Step], finished: int, *, begun: bool) -> dict[str, Step]:
    """By zone, the step that may not be left, once so many are finished and perhaps one more is begun."""
    pending: dict[str, Step] = {}
    for at, step in enumerate(steps[: finished + begun]):
        for zone in step.metal & pending.keys():
            mended_by = operation(pending[zone].operation).UNSAFE_UNTIL
            cures = mended_by is not None and step.does(mended_by)
            if cures and at < finished:  # a weld or a temper that has only begun makes nothing safe yet
                del pending[zone]
        if operation(step.operation).UNSAFE_UNTIL is not None:
            pending |= dict.fromkeys(step.zones, step)
    return pending


def may_rest_after(steps: Sequence[Step], number: int) -> bool:
    """Whether a job may be put down once this step is done and no other is begun."""
    return steps[number - 1].may_rest and not waiting_at(steps, number, begun=False)


class Care(StrEnum):
    """What is to be taken care of before a piece is left (common practice, no source)."""

    TEMPER = (
        "The piece: temper it now, if only by a first warming to a faint straw; until then keep it as "
        "warm as the hand bears, and let nothing strike it."
    )
    IN_FIRE = "The piece lies in the fire: take it out first; left there it scales away, and steel burns."
    COOL = (
        "The piece: let it cool in still air until it is black, where nobody takes hold of it; not in "
        "water and not on cold iron."
    )
    BURIED = (
        "The piece: leave it where it cools slowly, in its ash, its lime or the banked fire, until it is "
        "cold; in still air it would not soften."
    )
    OIL = "Bright faces: oil them, and clean the oil off before the next step."
    FIRE = "The fire: draw it apart or let it burn out, blast off and gas shut; nothing burns unattended."
    TUB = "The quench tub: lid on."


def care_at_rest(state: JobState) -> tuple[Care, ...]:
    """What fire and piece ask for before they are left."""
    steps = state.plan.recipe.steps
    done = len(state.records)
    last = steps[done] if done < len(steps) and state.marks else steps[done - 1] if done else None
    found = []
    is_hot = bool(state.in_at) or (
        last is not None and last.heat_kind is not HeatKind.COLD and last.heats > 0
    )
    if last is not None and last.does(Does.QUENCHES):
        found.append(Care.TEMPER)
    elif last is not None and last.heats and operation(last.operation).COOLS_BURIED:
        found.append(Care.BURIED)
    elif is_hot:
        found += [Care.IN_FIRE, Care.COOL] if state.in_at else [Care.COOL]
    if _is_bright(state):
        found.append(Care.OIL)
    tub = (Care.TUB,) if any(step.does(Does.QUENCHES) for step in steps) else ()
    return (*found, Care.FIRE, *tub)


def _is_bright(state: JobState) -> bool:
    """Whether faces that the step in hand needs clean lie open: not once they are heated or tacked."""
    step, done = state.step, len(state.records)
    if step is None or not step.does(Does.BRIGHT_WORK):
        return False
    if state.heats and step.heat_kind is not HeatKind.COLD:
        return False
    before = state.plan.recipe.steps[done - 1] if done else None
    tacked = before is not None and operation(before.operation).UNSAFE_UNTIL is Does.JOINS
    return not (tacked and before is not None and {*before.zones} & {*step.zones})


class StartingSize(NamedTuple):
    """A size that the next work starts from, to be measured cold before the first heat."""

    zone: str
    dimension: str
    now: Figure  # as it is believed to be
    before: Figure | None  # as the step left it that came before; None where it is still so


def first_to_measure(
    state: JobState, measured: Mapping[tuple[str, str], Figure | None]
) -> tuple[StartingSize, ...]:
    """The sizes to measure cold before the first heat: those the next work starts from, as believed now.

    Those `measured`, and not worked since, are as they were read: so are they told everywhere.

    They may have been changed away from the coach. A zone that nothing was entered for in the step in hand
    is as the step before left it; one that had heats and was not read is somewhere between that and what the
    step makes of it.
    """
    course = state.course()
    if course is None:
        return ()
    found = []
    recipe = state.plan.recipe
    for zone in (*course.step.zones, *course.step.parts):
        read = any(
            outcome.mark.reading.zone == zone and outcome.surprise is not None and not outcome.questioned
            for outcome in course.outcomes
        )
        under_way = course.now if read or course.heats else course.start
        now = under_way.zones.get(zone)
        if now is None or not now.has_form:
            continue
        dimensions = spoken_of(now.shape, recipe.drawing[zone].limits)
        names = [name for name in now.shape.own_dimensions if name not in now.linked]
        if operation(course.step.operation).SCOPE is Scope.PIECE:
            names = [MARK] if read else []  # a mark that was not struck yet is none to measure
        for name in names:
            size = expected_size(under_way, zone, name)
            if size is None or not (name in (*dimensions, MARK) or now.shape != recipe.drawing[zone].shape):
                continue
            as_read = measured.get((zone, name))
            told = as_read or mm(size.value, size.doubt)
            if under_way is course.start:
                told = _less_what_is_lost(course, zone, name) or told
            was = _as_it_was(course, zone, name) if course.heats and not read else None
            found.append(StartingSize(zone, name, told, was))
    return tuple(found)


def _is_less(course: Course) -> bool:
    """Whether metal was lost since a step began."""
    return any(isinstance(one, AmendmentMark) and one.is_loss for one in course.marks)


def _less_what_is_lost(course: Course, zone: str, name: str) -> Figure | None:
    """A size that the metal settles as a step found it, without what was lost since; else None."""
    start = course.start
    if not _is_less(course) or name != start.zones[zone].free:
        return None
    try:
        return mm(start.form(zone).solved(name, course.now.volume_mm3(zone)).size_mm(name))
    except FormError:
        return None


def _as_it_was(course: Course, zone: str, name: str) -> Figure | None:
    """A size as the step found it, or what it is worked from; where metal was lost since, without that."""
    start, state = course.start, course.now.zones[zone]
    if not start.zones[zone].has_form:
        return None
    if _is_less(course) and name == start.zones[zone].free:
        return _less_what_is_lost(course, zone, name)
    form = start.form(zone)
    source = name
    if expected_size(start, zone, name) is None:
        now_mm = course.now.size(zone, name).value
        source = state.shape.worked_from(name, now_mm, form.sizes_mm()) or name
    before = expected_size(start, zone, source)
    return mm(before.value, before.doubt) if before is not None else None
