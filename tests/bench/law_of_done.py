"""The law of done: once a step's heats are marked and its sizes read, its end changes nothing that is said.

`python -m tests.bench.law_of_done` tries every step of every recipe of the shelf, or of those named, with
every one of the readings, and tells each break; some ten minutes for all.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping
from functools import cache
from math import inf, isfinite
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.replay import after
from coach.bench.standing import Standing, standing_of
from coach.ledger.finishing import left_where_read
from coach.ledger.verdict import Verdict
from coach.ledger.wanting import wanted
from coach.ledger.working import reshapes
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.log.kinds.heat import Heat
from coach.log.kinds.reading import Reading
from coach.operations.measures import MARK
from coach.places import bundled_recipes
from coach.quantities import Limits
from coach.recipe.model import Step
from tests.bench.jobs import shop

NAMES = sorted(path.stem for path in bundled_recipes().glob("*.yaml"))
#: Where a size is read: so many of the half of its tolerance off its aim.
PLACES = (0.0, -1.0, 1.0, -1.5, 1.5, -2.0, 2.0)
#: And by so much of the size itself.
FAR = (-0.2, 0.2)

Size = tuple[str, str]
"""A zone and a dimension."""


class Told(NamedTuple):
    """What is said of a piece."""

    verdict: str
    chance: str  # to the share that is told
    rows: Mapping[str, str]  # each row's word


class Job(NamedTuple):
    """A job as its entries lead to it; one more makes another."""

    entries: tuple[Entry, ...]
    state: JobState

    @property
    def step(self) -> Step:
        step = self.state.step
        assert step is not None
        return step

    def with_entry(self, body: Body) -> Job:
        last = self.entries[-1]
        entry = Entry(last.job, last.number + 1, last.at, body, last.digest, "")
        state = after(self.state, entry)
        assert not state.left_out, state.left_out
        return Job((*self.entries, entry), state)

    def standing(self) -> Standing:
        return standing_of(self.entries, self.state)

    def heated(self) -> Job:
        """With the step's planned heats marked."""
        job = self
        for _ in range(self.step.heats):
            job = job.with_entry(Heat(step=self.step.number))
        return job

    def read(self, sizes: Mapping[Size, float]) -> Job:
        """With sizes read by calliper, stood by."""
        job = self
        for (zone, dimension), size_mm in sizes.items():
            typed = f"{size_mm:.2f}"
            job = job.with_entry(
                Reading(
                    zone=zone,
                    dimension=dimension,
                    typed=typed,
                    size=float(typed),
                    gauge="calliper",
                    hot_c=None,
                    hot_doubt_c=0.0,
                    insisted=True,
                    step=self.step.number,
                    taken_at="",
                )
            )
        return job

    def done(self) -> Job:
        step = self.step
        return self.with_entry(Done(step=step.number, heats=step.heats, marked=step.heats > 0, told=False))

    def asked(self) -> dict[Size, Limits]:
        """The sizes of the step: those that it works to, what the metal makes of them, those to measure."""
        step, plan, course = self.step, self.state.plan, self.state.course()
        if course is None:
            return {}
        zones = course.now.zones
        names = [(zone, name) for zone, _, name in (check.rpartition(".") for check in step.checks)]
        for zone in step.zones:
            if reshapes(step, zone):
                state = zones[zone]
                names += [
                    (zone, name)
                    for name in state.shape.dimensions
                    if name == state.free or (name in step.targets and state.leader(name) == name)
                ]
        found: dict[Size, Limits] = {}
        for zone, name in names:
            state = zones[zone]
            if not state.has_form or name not in (*state.shape.dimensions, MARK):
                continue
            dimension = state.shape.one_with(name) or name
            limits, _ = wanted(plan, course.now, step, zone, dimension)
            if limits is not None and isfinite(limits.nominal):
                found[zone, dimension] = limits
        return found

    @property
    def has_more_to_go(self) -> bool:
        """Whether a size may be worked on still before the step is ended: ending it says that it is not."""
        course = self.state.course()
        if course is None:
            return False
        to_go = any(one.verdict is Verdict.MORE_TO_GO for one in course.outcomes)
        return to_go or any(share < 1.0 for share in left_where_read(self.state.plan, course).values())

    def told(self) -> Told:
        standing = self.standing()
        rows = {f"{size.zone}.{size.dimension}": size.state.value for size in standing.sizes}
        return Told(standing.verdict.value, f"{100.0 * standing.chance:.0f} %", rows)


def places(limits: Limits) -> Iterator[float]:
    """The readings of a size that are tried."""
    aim = limits.nominal
    for place in PLACES:
        half = limits.high - aim if place > 0.0 else aim - limits.low
        if half == inf:
            half = aim - limits.low if limits.low > -inf else 0.02 * aim
        yield aim + place * half
    yield from (aim * (1.0 + share) for share in FAR)


@cache
def before(name: str, number: int, *, measured: bool) -> Job:
    """A job with that step in hand, the steps before it done as planned, and measured so or not at all."""
    if number == 1:
        path = bundled_recipes() / f"{name}.yaml"
        session = shop().begin(path.read_text(encoding="utf-8"), path.name, None)
        return Job(tuple(session._entries), session._state)
    job = before(name, number - 1, measured=measured)
    if measured:
        job = job.heated()
        job = job.read({size: limits.nominal for size, limits in job.asked().items()})
    return job.done()


def steps_of(name: str) -> int:
    return len(before(name, 1, measured=False).state.plan.recipe.steps)


def ways_there(name: str) -> list[tuple[int, bool]]:
    """Each step, with the steps before it measured or not.

    Before the last step what nobody measured does not yet count in full: there the steps before are measured.
    """
    steps = steps_of(name)
    both = ((number, measured) for number in range(1, steps + 1) for measured in (True, False))
    return [(number, measured) for number, measured in both if measured or number != steps - 1]


def read_at(job: Job, off: Size, size_mm: float) -> Job:
    """A job with one size of its step read there, the others on their aims."""
    return job.read({size: limits.nominal for size, limits in job.asked().items()} | {off: size_mm})


def breaks(name: str, number: int, *, measured: bool) -> Iterator[str]:
    """Every size of a step in turn in every place, as far as its end then changes what is said."""
    job = before(name, number, measured=measured).heated()
    for off, limits in job.asked().items():
        for size_mm in places(limits):
            one = read_at(job, off, size_mm) if size_mm > 0.0 else None
            if one is None or one.has_more_to_go:
                continue
            was, now = one.told(), one.done().told()
            if was != now:
                rows = {
                    row for row in was.rows.keys() | now.rows.keys() if was.rows.get(row) != now.rows.get(row)
                }
                way = "measured" if measured else "unmeasured"
                where = f"{name} {number} {way}: {'.'.join(off)} {size_mm:.2f}"
                yield f"{where}: {was.verdict} {was.chance} -> {now.verdict} {now.chance} {rows or ''}"


def main() -> None:
    for name in sys.argv[1:] or NAMES:
        for number, measured in ways_there(name):
            for line in breaks(name, number, measured=measured):
                print(line, flush=True)


if __name__ == "__main__":
    main()
