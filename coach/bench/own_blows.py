"""How many blows a heat takes, where a smith has said them: in this job, and in those before it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import exp, log, sqrt
from typing import Final, NamedTuple

from coach.bench.begun_with import among, known_in
from coach.bench.job_state import JobState
from coach.fire.blows import HAND_HAMMER
from coach.ledger.course import HeatMark
from coach.log.kinds.blows_counted import BlowsCounted
from coach.log.kinds.heat import Heat
from coach.log.kinds.shop_known import ShopKnown, blows_name
from coach.quantities.figure import Figure, Kind, Span
from coach.recipe.model import Step

#: A heat is worked for about a minute before it is back in the fire (common practice, no source).
_A_HEAT_MINUTES: Final = 1.0
#: Blows a heat before any was counted: by a hand hammer, at its rate, the share of the time that it strikes
#: (judgement).
BOOK_BLOWS: Final = HAND_HAMMER.blows_per_minute * HAND_HAMMER.striking_share * _A_HEAT_MINUTES
#: Hammers and smiths differ by about this, as a logarithm: nine in ten strike 18 to 96 a heat (judgement).
BLOWS_BOOK_SPREAD: Final = 0.5
#: One heat differs from another of the same work by about this, as a logarithm (judgement).
BLOWS_HEAT_SPREAD: Final = 0.3
#: Nine in ten lie within so many standard deviations (by definition).
_COVERAGE: Final = 1.645


class BlowsAHeat(NamedTuple):
    """How many blows a heat of an operation takes, by what smiths have counted."""

    a_heat: Figure  # so many, with the doubt of their mean
    rests_on: int  # so many heats of this job
    of_shop: int  # so many earlier jobs taught what it began with; 0 where none did

    def of(self, heats: float) -> Span:
        """How many so many heats take, nine times in ten: each differs from another."""
        share = (self.a_heat.doubt or 0.0) / self.a_heat.value
        middle, doubt = (
            log(heats * self.a_heat.value),
            sqrt(share**2 + BLOWS_HEAT_SPREAD**2 / max(heats, 1.0)),
        )
        return Span(exp(middle - _COVERAGE * doubt), exp(middle + _COVERAGE * doubt), Kind.COUNT)


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
    return _together(own_blows(state, operation), known.get(blows_name(operation)))


def blows_begun_with(known: Mapping[str, ShopKnown], operation: str) -> BlowsAHeat | None:
    """The same of a job that is begun with what is known of the shop."""
    return _together([], known.get(blows_name(operation)))


def _together(own: list[float], known: ShopKnown | None) -> BlowsAHeat | None:
    if not own and known is None:
        return None
    began, spread = log(BOOK_BLOWS), BLOWS_BOOK_SPREAD
    if known is not None:
        began, spread = log(known.value), known.doubt / known.value
    weight = 1.0 / spread**2 + len(own) / BLOWS_HEAT_SPREAD**2
    mean = exp((began / spread**2 + sum(own) / BLOWS_HEAT_SPREAD**2) / weight)
    figure = Figure(mean, Kind.COUNT, mean / sqrt(weight))
    return BlowsAHeat(figure, len(own), known.jobs if known is not None else 0)
