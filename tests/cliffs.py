"""Look for cliffs: `python -m tests.cliffs [CONTEXTS EACH] [RECIPE ...] [--seed N]`.

Every size that can be read in every step of the shelf's recipes is read over its whole range, beside so many
different states of the step; where a chance moves, the range is halved down to a hundredth of a millimetre.
What is steepest is printed first: points for a hundredth, beside the slope that the gauge itself leaves.
The readings come in a random order, and in another once more: that is to change nothing.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from itertools import pairwise
from math import inf, isfinite, pi, sqrt
from random import Random
from typing import NamedTuple

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.stepping import step_on
from coach.ledger.wanting import wanted
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, at_stock
from coach.places import bundled_recipes
from coach.quantities import Limits
from coach.recipe.model import Step
from coach.recipe.reader import read_recipe_file

#: How steep the normal distribution is at its middle, for each standard uncertainty (by definition).
STEEPEST = 1.0 / sqrt(2.0 * pi)
#: So fine is looked, and by so many places over a range at first (our choice).
FINEST_MM, PLACES = 0.01, 24
#: A reading further than this from what was expected is another matter, where it is stood by (judgement).
NO_SURPRISE = 1.9

#: What two orders of the same readings may be apart, points: the update of what is not linear stops at a
#: tenth of the gauge's doubt (our choice).
_ANY_ORDER_POINTS = 1.0

#: What is told of a job by a reading: each chance by its name.
Told = Mapping[str, float]


class Cliff(NamedTuple):
    """The steepest place of one chance while one size is read over its range."""

    points: float  # for a hundredth of a millimetre
    by_gauge: float  # what the doubt of the reading by itself would make of one limit
    recipe: str
    step: int
    size: str
    at_mm: float
    what: str  # which chance
    before: float
    after: float
    context: str

    @property
    def row(self) -> str:
        """It as it is printed."""
        return (
            f"{self.points:6.2f} (gauge {self.by_gauge:4.2f})  {self.recipe} step {self.step}  "
            f"{self.size} at {self.at_mm:.2f}  {self.what} {self.before:.3f} -> {self.after:.3f}  "
            f"[{self.context}]"
        )


class Bench:
    """One recipe, with the workpiece before each step, everything before it as planned."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.plan: Plan = look_back(read_recipe_file(bundled_recipes() / f"{name}.yaml"))
        self.starts: list[Workpiece] = [at_stock(self.plan)]
        for step in self.plan.recipe.steps:
            self.starts.append(step_on(self.plan, self.starts[-1], step))

    def told(self, step: Step, marks: Sequence[Mark]) -> tuple[Told, float]:
        """What is told, and how surprising the most surprising reading is."""
        start = self.starts[step.number - 1]
        try:
            course = follow(self.plan, start, step, marks, finished=False)
        except LedgerError:
            return {}, inf
        if any(one.questioned for one in course.outcomes):
            return {}, inf  # what cannot be believed says nothing
        surprises = [abs(one.surprise.standardised) for one in course.outcomes if one.surprise is not None]
        found = forecast(self.plan, course, start, step.number)
        if found.will_pass is None:
            return {}, inf
        told = {"so far": found.chance, "will pass": found.will_pass.chance}
        for zone in found.zones.values():
            told |= {f"size {size.name}": size.chance for size in zone.sizes}
        return told, max(surprises, default=0.0)

    def readable(self, step: Step, start: Workpiece) -> dict[tuple[str, str], Limits]:
        """The sizes of the metal account that the step or its checks name, with where each is wanted."""
        now = follow(self.plan, start, step, [], finished=False).now
        names = {tuple(check.rsplit(".", 1)) for check in step.checks}
        for zone in step.zones:
            if zone in now.zones and now.zones[zone].has_form:
                names |= {(zone, dimension) for dimension in now.zones[zone].shape.dimensions}
        found = {}
        for zone, dimension in sorted(names):
            state = now.zones.get(zone)
            if state is None or not state.has_form or dimension not in state.shape.dimensions:
                continue
            limits, _ = wanted(self.plan, now, step, zone, dimension)
            if limits is not None and isfinite(limits.nominal):
                found[zone, dimension] = limits
        return found


def _reach_mm(limits: Limits) -> float:
    """How far about its target a size is looked at: to well beyond both limits."""
    ends = [abs(end - limits.nominal) for end in (limits.low, limits.high) if isfinite(end)]
    return 1.8 * max([*ends, 0.5])


def cliffs(bench: Bench, contexts: int, seed: int) -> Iterator[Cliff]:
    """The steepest place of every chance, for every size of every step, in so many contexts each."""
    for step in bench.plan.recipe.steps:
        start = bench.starts[step.number - 1]
        try:
            sizes = bench.readable(step, start)
        except LedgerError:
            continue
        for size in sizes:
            for context in range(contexts):
                chance = Random(f"{bench.name} {step.number} {size} {context} {seed}")
                yield from swept(bench, step, sizes, size, chance)


def swept(
    bench: Bench, step: Step, sizes: Mapping[tuple[str, str], Limits], size: tuple[str, str], chance: Random
) -> Iterator[Cliff]:
    """One size over its range, beside others that were read or not."""
    marks: list[Mark] = [HeatMark(100 + n) for n in range(chance.randint(0, step.heats))]
    insisted = chance.random() < 0.5
    told_of = [f"{len(marks)} heats" + (", stood by" if insisted else "")]
    zones = bench.starts[step.number].zones
    leads = {one: (one[0], zones[one[0]].leader(one[1]) if one[0] in zones else one[1]) for one in sizes}
    read = {leads[size]}  # what was read by two names that disagree counts as it was read last
    for other, limits in sizes.items():
        if leads[other] in read or chance.random() < 0.4:
            continue
        read.add(leads[other])
        low, high = max(limits.low, limits.nominal - 3.0), min(limits.high, limits.nominal + 3.0)
        at_mm = round(limits.nominal + chance.uniform(-0.45, 0.45) * (high - low), 2)
        if at_mm <= 0.0:
            continue
        marks.append(ReadingMark(200 + len(marks), Reading(*other, at_mm, "calliper"), insisted=insisted))
        told_of.append(f"{other[0]}.{other[1]} {at_mm:g}")
    place = chance.randint(len([m for m in marks if isinstance(m, HeatMark)]), len(marks))

    def at(mm: float) -> tuple[Told, float]:
        mark = ReadingMark(300, Reading(*size, mm, "calliper"), insisted=insisted)
        return bench.told(step, [*marks[:place], mark, *marks[place:]])

    limits, reach_mm = sizes[size], _reach_mm(sizes[size])
    yield from turned(bench, step, marks, size, limits.nominal, insisted, chance, "; ".join(told_of))
    low = max(limits.nominal - reach_mm, 0.2)
    ends = [low + (limits.nominal + reach_mm - low) * k / PLACES for k in range(PLACES + 1)]
    ends = [round(mm, 2) for mm in ends]
    known = {mm: at(mm) for mm in ends}
    best: dict[str, Cliff] = {}
    for before, after in pairwise(ends):
        for what in known[before][0].keys() & known[after][0].keys():
            for low_mm, high_mm in _steepest(known, at, before, after, what):
                one, two = known[low_mm], known[high_mm]
                if max(one[1], two[1]) > NO_SURPRISE or what not in one[0] or what not in two[0]:
                    continue
                points = 100.0 * abs(two[0][what] - one[0][what])
                if what not in best or points > best[what].points:
                    doubt = cold_reading(Reading(*size, low_mm, "calliper")).doubt_mm
                    best[what] = Cliff(
                        points,
                        FINEST_MM * STEEPEST * 100.0 / doubt,
                        bench.name,
                        step.number,
                        f"{size[0]}.{size[1]}",
                        low_mm,
                        what,
                        one[0][what],
                        two[0][what],
                        "; ".join(told_of),
                    )
    yield from best.values()


def turned(
    bench: Bench,
    step: Step,
    marks: Sequence[Mark],
    size: tuple[str, str],
    at_mm: float,
    insisted: bool,
    chance: Random,
    context: str,
) -> Iterator[Cliff]:
    """What the same readings tell in two orders, where that is not the same."""
    mark = ReadingMark(300, Reading(*size, round(at_mm, 2), "calliper"), insisted=insisted)
    heats = [one for one in marks if isinstance(one, HeatMark)]
    readings = [*(one for one in marks if not isinstance(one, HeatMark)), mark]
    (as_typed, surprise), (turned_about, other) = (
        bench.told(step, [*heats, *some]) for some in (readings, chance.sample(readings, len(readings)))
    )
    if max(surprise, other) > NO_SURPRISE:
        return
    for what in as_typed.keys() & turned_about.keys():
        apart = 100.0 * abs(as_typed[what] - turned_about[what])
        if apart > _ANY_ORDER_POINTS:
            both = as_typed[what], turned_about[what]
            where = f"{size[0]}.{size[1]}", at_mm, f"in another order, {what}"
            yield Cliff(apart, 0.0, bench.name, step.number, *where, *both, context)


def _steepest(
    known: dict[float, tuple[Told, float]],
    at: Callable[[float], tuple[Told, float]],
    before: float,
    after: float,
    what: str,
) -> Iterator[tuple[float, float]]:
    """Halve a range where a chance moves, down to a hundredth, into the half in which it moves more."""
    worth = 0.015
    while after - before > FINEST_MM * 1.5:
        apart = abs(known[after][0].get(what, 0.0) - known[before][0].get(what, 0.0))
        if apart < worth:
            return
        middle = round(0.5 * (before + after), 2)
        if middle not in known:
            known[middle] = at(middle)
        if what not in known[middle][0]:
            return
        first = abs(known[middle][0][what] - known[before][0][what])
        second = abs(known[after][0].get(what, 0.0) - known[middle][0][what])
        before, after = (before, middle) if first >= second else (middle, after)
    yield before, after


def of_recipe(name: str, contexts: int, seed: int) -> list[Cliff]:
    """All of one recipe."""
    return list(cliffs(Bench(name), contexts, seed))


def main(given: Sequence[str]) -> None:
    seed = 1
    words = list(given)
    if "--seed" in words:
        at = words.index("--seed")
        seed = int(words[at + 1])
        del words[at : at + 2]
    contexts = int(words.pop(0)) if words and words[0].isdigit() else 2
    names = words or sorted(path.stem for path in bundled_recipes().glob("*.yaml"))
    found: list[Cliff] = []
    with ProcessPoolExecutor(2) as pool:
        for some in pool.map(partial(of_recipe, contexts=contexts, seed=seed), names):
            found += some
            worst = max(some, default=None, key=lambda one: one.points)
            if worst is not None:
                print(worst.row, flush=True)
    print()
    steep = sorted((one for one in found if one.points >= 2.0), key=lambda one: -one.points)
    print(f"{len(found)} chances looked at, {len(steep)} at 2 points or more")
    for one in steep[:200]:
        print(one.row)


if __name__ == "__main__":
    main(sys.argv[1:])
