"""A job forged about half-way from invented readings, for showing what the bench is like."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import cycle

from coach.bench.session import Session
from coach.operations import operation
from coach.recipe.model import Step

_BEGAN = datetime(2026, 3, 14, 8, 30, tzinfo=UTC)
_BETWEEN_ENTRIES = timedelta(minutes=4)
_NOTE = "One ear of this is a little thin: keep the blows off it, and look at it again before the last heat."
# How far each reading lies from what was aimed at, as a share of half its limits: fair work by hand.
_OFF = (0.15, -0.25, 0.3, -0.1, 0.2, -0.3, 0.0)
# The thin reading, by the same measure: just beyond its low limit.
_THIN = -1.25


def invented_clock() -> Callable[[], datetime]:
    """A clock for the invented entries: every one is some minutes after the last, on one invented day."""
    ticks = iter(range(10_000))
    return lambda: _BEGAN + next(ticks) * _BETWEEN_ENTRIES


def forge_half(session: Session) -> None:
    """Enter what a smith would have entered by the middle of the job; it stops within a step.

    One step took a heat too many, one size came out slightly thin, and something was noted about it.
    """
    off = cycle(_OFF)
    last = _stops_at(session.recipe.steps)
    late = max((step.number for step in session.recipe.steps[: last.number - 1] if step.heats > 1), default=0)
    for step in session.recipe.steps[: last.number - 1]:
        for _ in range(step.heats + (step.number == late)):
            session.heat()
        _read(session, step, step.checks, off)
        session.done()
    session.heat()
    session.note(_NOTE)
    _read(session, last, last.checks[:1], iter((_THIN,)))


def _stops_at(steps: tuple[Step, ...]) -> Step:
    """The step to stop within: the first from the middle on with several heats and several sizes to measure."""
    from_the_middle = steps[len(steps) // 2 :]
    return next((step for step in from_the_middle if step.heats > 1 and len(step.checks) > 1), steps[-1])


def _read(session: Session, step: Step, names: tuple[str, ...], off: Iterator[float]) -> None:
    """Measure each of these sizes, a little off what the step aims at."""
    for name in names:
        zone, dimension = name.split(".", 1)
        limits = step.targets.get(dimension)
        if limits is not None:
            half = min(limits.nominal - limits.low, limits.high - limits.nominal, 0.1 * limits.nominal)
            size = limits.nominal + next(off) * half
        else:  # it follows from the metal
            size = session.plan.by_step[step.number][zone].form_after.size_mm(dimension)
        is_angle = operation(step.operation).EXTRAS.get(dimension) == "angle"
        session.read(name, f"{size:.0f}°" if is_angle else f"{size:.1f} mm")
