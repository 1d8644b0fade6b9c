"""A job forged about half-way from invented readings: the demonstration is made of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import cycle

from coach.bench.entering import AsTyped, Then, read_typed
from coach.bench.replay import apply, replay
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.body import Body
from coach.log.carry import export_job
from coach.log.jobs import Log
from coach.log.kinds.done import Done
from coach.log.kinds.heat import Heat
from coach.log.kinds.note import Note
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.operations.measures import PASSED
from coach.places import bundled_recipes
from coach.quantities import Figure, Kind
from coach.quantities.moments import as_entered
from coach.recipe.model import Step
from coach.telling.figures import write_figure
from coach.telling.writing import Shown

_BEGAN = datetime(2026, 3, 14, 8, 30, tzinfo=UTC)
_BETWEEN_ENTRIES = timedelta(minutes=4)
_NOTE = "One corner runs ahead of the other: even it up in the next heat."
# How far each reading lies from what was aimed at, as a share of half its limits: fair work by hand.
_OFF = (0.15, -0.25, 0.3, -0.1, 0.2, -0.3, 0.0)
# The thin reading, by the same measure: a little beyond its low limit.
_THIN = -2.0


def half_forged(text: str, source: str) -> str:
    """The job file of a job of this recipe, up to the middle of it; it stops within a step.

    One step took a heat too many, one size came out slightly thin, and something was noted. Raises
    RecipeFaults and LedgerError.
    """
    clock = _invented_clock()
    with Shop(":memory:", clock) as shop:
        session = shop.begin(text, source)
        _forge(_Smith(session, shop.log, clock), session.recipe.steps)
        return export_job(shop.log, session.job)


def _invented_clock() -> Callable[[], datetime]:
    """Every moment some minutes after the last, on one invented day."""
    told = -1

    def tick() -> datetime:
        nonlocal told
        told += 1
        return _BEGAN + told * _BETWEEN_ENTRIES

    return tick


def demonstration() -> str:
    """The job file of the demonstration."""
    recipe = bundled_recipes() / "carpenters-adze.yaml"
    return half_forged(recipe.read_text(encoding="utf-8"), recipe.name)


class _Smith:
    """Enters what was done without asking where the job stands after each entry: that is for the bench."""

    def __init__(self, session: Session, log: Log, clock: Callable[[], datetime]) -> None:
        self._session = session
        self._log = log
        self._clock = clock
        self._last = log.last_number(session.job)
        self._state = replay(session.plan, log.entries(session.job))

    def enter(self, body: Body) -> None:
        """Enter one thing."""
        entry = self._log.append(self._session.job, self._last, as_entered(self._clock()), body)
        self._last = entry.number
        apply(self._state, entry)

    def measure(self, step: Step, name: str, off: float) -> None:
        """Measure one size, so much off what the step aims at, as a share of half its limits."""
        zone, dimension = name.split(".", 1)
        kind = operation(step.operation).kind_of(dimension) or Kind.LENGTH
        limits = step.targets.get(dimension) if kind is not Kind.TEST else PASSED
        if limits is PASSED:
            size = limits.nominal
        elif limits is not None:
            half = min(limits.nominal - limits.low, limits.high - limits.nominal, 0.1 * limits.nominal)
            size = limits.nominal + off * half
        else:  # it follows from the metal
            stages = self._session.plan.stages[zone]
            before = [stage for stage in stages if stage.step.number <= step.number]
            sizes = before[-1].form_after.sizes_mm() if before else {}
            if dimension not in sizes:
                return  # nothing says what it would be
            size = sizes[dimension]
        system = self._session.system
        typed = write_figure(Figure(size, kind), Shown(system))
        body = read_typed(self._state, Then(step, self._state.course()), system, AsTyped(name, typed))
        self.enter(body)


def _forge(smith: _Smith, steps: tuple[Step, ...]) -> None:
    last = _stops_at(steps)
    finished = steps[: last.number - 1]
    slow = max((step.number for step in finished if step.heats > 1), default=0)
    off = cycle(_OFF)
    for step in finished:
        heats = step.heats + (1 if step.number == slow else 0)
        _heat(smith, step, heats)
        for name in step.checks:
            smith.measure(step, name, next(off))
        smith.enter(Done(step=step.number, heats=heats, marked=False, told=True))
    _heat(smith, last, last.heats // 2)
    smith.enter(Note(text=_NOTE, step=last.number))
    _measure_up_to_a_thin_one(smith, last, off)


def _stops_at(steps: tuple[Step, ...]) -> Step:
    """The step to stop within: from the middle on, the first of several forging heats to several sizes."""
    return next(
        (
            step
            for step in steps[len(steps) // 2 :]
            if step.heat_kind is HeatKind.FORGING and step.heats > 1 and len(step.checks) > 1
        ),
        steps[-1],
    )


def _heat(smith: _Smith, step: Step, heats: int) -> None:
    for _ in range(heats):
        smith.enter(Heat(step=step.number))


def _measure_up_to_a_thin_one(smith: _Smith, step: Step, off: Iterator[float]) -> None:
    """Measure the step's sizes in their order up to the first thickness, which is thin."""
    for name in step.checks[:-1]:
        thin = name.endswith("thickness") and name.split(".", 1)[1] in step.targets
        smith.measure(step, name, _THIN if thin else next(off))
        if thin:
            return
