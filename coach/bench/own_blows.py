"""The blows of a job's heats, where a smith has said them."""

from __future__ import annotations

from collections.abc import Iterator
from math import log

from coach.bench.begun_with import among, known_in
from coach.bench.blows_a_heat import BlowsAHeat, weighed
from coach.bench.job_state import JobState
from coach.ledger.course import HeatMark
from coach.log.kinds.blows_counted import BlowsCounted
from coach.log.kinds.heat import Heat
from coach.log.kinds.shop_known import blows_name
from coach.recipe.model import Step


def blows_by_step(state: JobState) -> dict[int, tuple[int, ...]]:
    """The blows that were said, a figure for each heat of which they were, by the step's number."""
    return {number: blows for number, _, blows in _steps_struck(state)}


def own_blows(state: JobState, operation: str) -> list[float]:
    """The logarithms of the blows that were said of the heats of an operation."""
    of_it = (struck for _, step, struck in _steps_struck(state) if step.operation == operation)
    return [log(blows) for struck in of_it for blows in struck]


def operations_struck(state: JobState) -> tuple[str, ...]:
    """The operations of which blows were said."""
    return tuple(dict.fromkeys(step.operation for _, step, _ in _steps_struck(state)))


def _steps_struck(state: JobState) -> Iterator[tuple[int, Step, tuple[int, ...]]]:
    said = blows_said(state)
    steps = [(one.step, one.marks) for one in state.records]
    steps += [(state.step, tuple(state.marks))] if state.step is not None else []
    for step, marks in steps if said else ():
        heats = [mark.entry for mark in marks if isinstance(mark, HeatMark)]
        if struck := tuple(said[one] for one in heats if one in said):
            yield step.number, step, struck


def blows_said(state: JobState) -> dict[int, int]:
    """The blows of each heat of which they were said, by the number of its entry."""
    bodies = sorted((n, one.body) for n, one in state.counted.items() if isinstance(one.body, BlowsCounted))
    return {one.entry: one.blows for _, one in bodies if one.entry in state.counted}


def last_heat(state: JobState) -> int:
    """The number of the entry of the heat that was taken last; 0 where none was marked."""
    heats = (number for number, one in reversed(state.counted.items()) if isinstance(one.body, Heat))
    return next(heats, 0)


def blows_a_heat(state: JobState, operation: str) -> BlowsAHeat | None:
    """The blows that a heat of an operation takes; None where nobody has said any of it.

    What this job's own heats say is weighed with what the shop's have taught, each as a logarithm by its
    variance: Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), section 2.5, normal mean with known
    variance (from memory).
    """
    known = among(known_in(state.counted.values()))
    return weighed(own_blows(state, operation), known.get(blows_name(operation)))
