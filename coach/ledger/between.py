"""What was done between the readings of a step: what was under way then, and when a zone was worked last."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import chain, pairwise
from math import sqrt

from coach.ledger.course import (
    HeatMark,
    Mark,
    Outcome,
    ReadingMark,
    asked_names,
    believed_name,
    heats_in,
)
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.verdict import Verdict
from coach.ledger.working import reshapes
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.operations.measures import MASS, SLUG
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.model import Step

#: Two readings of one size differ by more than this many standard uncertainties only if work was done between
#: them (judgement).
_WORKED_BETWEEN = 2.0


def is_worked(step: Step, reading: Reading) -> bool:
    """Whether the heats of a step work a size."""
    return reshapes(step, reading.zone) and reading.dimension not in (MASS, SLUG, *SHOP_TESTS)


def is_old(step: Step, marks: Sequence[Mark], last_heat: int, outcome: Outcome) -> bool:
    """Whether a heat has worked the size since, or undone what was tested, which is no failure."""
    if (at := marks.index(outcome.mark)) > last_heat:
        return False
    test = SHOP_TESTS.get(outcome.mark.reading.dimension)
    if test is not None:
        of_its_heat = test.as_it_heats and heats_in(marks[at:]) <= 1
        return outcome.verdict not in (None, Verdict.OUT) and not of_its_heat
    return is_worked(step, outcome.mark.reading) or _is_put_right(step, outcome.mark.reading)


def _is_put_right(step: Step, reading: Reading) -> bool:
    """Whether the heats of a step work on what was read, though on no size of the metal: a bend, a wind."""
    works = step.heat_kind is not HeatKind.TREATMENT and reading.dimension in operation(step.operation).GROWS
    return works and reading.zone in step.zones


def with_age(
    step: Step, marks: Sequence[Mark], last_heat: int, left: Collection[int], one: Outcome
) -> Outcome:
    """What became of a reading, and whether its size was worked since; `left` are entries left behind."""
    return one._replace(old=one.old or one.mark.entry in left or is_old(step, marks, last_heat, one))


def left_behind(
    plan: Plan, step: Step, shown: Reading, fresh: Collection[str], earlier: Sequence[Outcome]
) -> set[int]:
    """The entries of sizes of a zone that were read before work that no heat was marked for, as one shows.

    A section that was drawn further leaves its length behind, and a length its section; not what is `fresh`,
    read in the same round.
    """
    stage = plan.by_step[step.number].get(shown.zone)
    if stage is None or not stage.after.has_form:
        return set()
    return {
        one.mark.entry
        for one in earlier
        if (was := one.mark.reading).zone == shown.zone
        and was.dimension != shown.dimension
        and stage.after.free in (was.dimension, shown.dimension)
        and was.dimension in stage.after.shape.dimensions
        and is_worked(step, was)
        and believed_name(plan, step, was) not in fresh
    }


def moved_mm(was_mm: float, now_mm: float, chance_mm: float) -> float:
    """How far a size has moved since it was read; nothing where its gauge cannot tell."""
    off_mm = now_mm - was_mm
    return off_mm if abs(off_mm) > _WORKED_BETWEEN * sqrt(2.0) * chance_mm else 0.0


def driven_in(
    marks: Sequence[Mark], unheard: Collection[int], plan: Plan, step: Step, since_mm: Mapping[str, float]
) -> Iterator[str]:
    """The zones whose free dimension moved, as a round of readings shows, the way their section moves it.

    Entries that are `unheard` say nothing of work; `since_mm` are the sizes as they were read since the last
    heat, by their name in the belief.
    """
    for mark in marks:
        if not isinstance(mark, ReadingMark) or mark.entry in unheard:
            continue
        reading, was_mm = mark.reading, since_mm.get(believed_name(plan, step, mark.reading))
        stage = plan.by_step[step.number].get(reading.zone)
        if was_mm is None or stage is None or reading.dimension != stage.after.free:
            continue
        cold = cold_reading(reading)
        by_mm = moved_mm(was_mm, cold.size_mm, cold.chance_mm)
        if by_mm and stage.drives(reading.dimension, by_mm):
            yield reading.zone


def read_under_way(
    plan: Plan, step: Step, rounds: Sequence[Sequence[Mark]], last_heat: int, ignored: Collection[int] = ()
) -> frozenset[str]:
    """The sizes that were still being worked at some reading, though the step is finished now.

    Those that were read themselves, and all of a zone that was measured before the last heat, or whose free
    dimension was read again, moved: what was read then hung on a section that was not yet where it was going.
    The entries that are `ignored` are readings in question.
    """
    readings = list(_readings(list(chain.from_iterable(rounds)), ignored))
    read = {believed_name(plan, step, one.reading) for _, one in readings}
    early = {one.reading.zone for at, one in readings if at < last_heat}
    early |= _driven(plan, step, rounds, ignored).keys()
    asked = asked_names(plan, step)
    return frozenset(name for name in asked if name in read or name.rsplit(".", 1)[0] in early)


def brought_home(
    plan: Plan, step: Step, rounds: Sequence[Sequence[Mark]], last_heat: int, ignored: Collection[int] = ()
) -> Mapping[str, int]:
    """The sizes that the last work on their zone in a finished step brings to their targets.

    Each with the place of that work among the marks: the last heat, or the one before the round of readings
    that shows that there was more since. What was read after it is as it was read then, wherever that is.
    """
    marks = list(chain.from_iterable(rounds))
    driven = _driven(plan, step, rounds, ignored)
    found: dict[str, int] = {}
    for name in asked_names(plan, step):
        at = max(last_heat, driven.get(name.rsplit(".", 1)[0], -1))
        since = (one.reading for place, one in _readings(marks, ignored) if place > at)
        if name not in {believed_name(plan, step, reading) for reading in since}:
            found[name] = at
    return found


def home_at(home: Mapping[str, int], at: int) -> frozenset[str]:
    """Those that the work at one place brings to their targets."""
    return frozenset(name for name, place in home.items() if place == at)


def _readings(marks: Sequence[Mark], ignored: Collection[int]) -> Iterator[tuple[int, ReadingMark]]:
    """The believed readings, each with its place."""
    for at, mark in enumerate(marks):
        if isinstance(mark, ReadingMark) and mark.entry not in ignored:
            yield at, mark


def _driven(
    plan: Plan, step: Step, rounds: Sequence[Sequence[Mark]], ignored: Collection[int]
) -> dict[str, int]:
    """The zones whose free dimension was read again with no heat between, moved as their section moves it.

    Each with the place of the last mark before the round of that reading.
    """
    marks = list(chain.from_iterable(rounds))
    before = [at for at, one in zip(_before(rounds), rounds, strict=True) for _ in one]
    readings, found = list(_readings(marks, ignored)), {}
    for zone, stage in plan.by_step[step.number].items():
        free = [(at, one.reading) for at, one in readings if one.reading[:2] == (zone, stage.after.free)]
        for (was_at, was), (at, now) in pairwise(free):
            # What a way back took off between two of them no hammer moved; a heat that was marked speaks for
            # itself.
            if any(not isinstance(mark, ReadingMark) for mark in marks[was_at:at]):
                continue
            cold = cold_reading(now)
            by_mm = moved_mm(cold_reading(was).size_mm, cold.size_mm, cold.chance_mm)
            if by_mm and stage.drives(stage.after.free, by_mm):
                found[zone] = before[at]
    return found


def _before(rounds: Sequence[Sequence[Mark]]) -> Iterator[int]:
    """The place of the last mark before each round; -1 before the first."""
    at = -1
    for one in rounds:
        yield at
        at += len(one)


def last_heat_of(marks: Sequence[Mark]) -> int:
    """The place of the last heat among the marks; -1 without one."""
    return max((at for at, mark in enumerate(marks) if isinstance(mark, HeatMark)), default=-1)
