"""What the readings of a step teach of the shop itself: how hungry its fire is and how its metal spreads."""

from __future__ import annotations

from typing import NamedTuple

from coach.ledger.plan import Plan
from coach.ledger.reading import ColdReading, Reading, cold_reading
from coach.ledger.spreading import Lesson, lesson_of, taught
from coach.ledger.verdict import Judged, Verdict
from coach.ledger.workpiece import SCALE, SPREAD, Workpiece
from coach.recipe.model import Step


class Taught(NamedTuple):
    """How far one reading moved what is believed of the shop."""

    scale: float = 0.0  # the scale factor
    spread: float = 0.0  # the spread coefficient
    lesson: Lesson | None = None  # the measured heat, where the reading completed one


UNTAUGHT = Taught()


class Learner:
    """Follows the readings of one step; the first heat in which a zone's spread is measured is its lesson."""

    def __init__(self, plan: Plan, start: Workpiece, step: Step) -> None:
        self._plan = plan
        self._start = start
        self._step = step
        self._read: dict[str, dict[str, ColdReading]] = {}  # of this heat, by zone and dimension
        self._at_size: set[tuple[str, str]] = set()
        self._taught: set[str] = set()

    def heat(self) -> None:
        """After a heat nothing is where it was read."""
        self._read.clear()
        self._at_size.clear()

    def read(
        self, before: Workpiece, now: Workpiece, reading: Reading, judged: Judged | None
    ) -> tuple[Workpiece, Taught]:
        """Take in what a believed reading says of the spread: `before` it was taken in, and `now` with it."""
        lesson = self._lesson(now, reading, judged)
        if lesson is not None:
            self._taught.add(reading.zone)
            now = taught(now, lesson)
        scale, spread = (now.belief.mean(name) - before.belief.mean(name) for name in (SCALE, SPREAD))
        return now, Taught(scale, spread, lesson)

    def _lesson(self, now: Workpiece, reading: Reading, judged: Judged | None) -> Lesson | None:
        zone, dimension = reading.zone, reading.dimension
        stage = self._plan.by_step[self._step.number].get(zone)
        if (
            stage is None
            or now.zones[zone].laid_on is not None
            or dimension not in now.zones[zone].shape.dimensions
        ):
            return None
        self._read.setdefault(zone, {})[dimension] = cold_reading(reading)
        self._at_size.discard((zone, dimension))
        if judged is not None and judged.verdict in (Verdict.GOOD, Verdict.UNSURE):
            self._at_size.add((zone, dimension))
        if zone in self._taught:
            return None
        at_size = [name for of, name in self._at_size if of == zone]
        return lesson_of(self._start, self._step, now.zones[zone], self._read[zone], at_size)
