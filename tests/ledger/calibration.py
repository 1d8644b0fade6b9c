"""Chances told by the ledger held against what became of thousands of made-up tools.

`python -m tests.ledger.calibration` prints the tables of docs/calibration.md.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from itertools import pairwise
from math import prod, sqrt
from typing import NamedTuple

import numpy as np

from coach.forms import Form
from coach.ledger.course import Course, HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.workpiece import at_stock
from coach.ledger.zone_forecast import ZoneForecast
from tests.ledger.recipes import planned
from tests.ledger.virtual_forge import AS_ASSUMED, Forge, Smith
from tests.ledger.virtual_jobs import JOBS, Job, Stage

HOT_C = 880.0
#: How often the virtual smith takes a size that could be taken.
TAKES = 0.7
#: One-sided 95 %, two-sided 90 %.
GUARD = 1.645
#: One Gaussian in 370 is further off than this many standard uncertainties.
BEYOND = 3.0
#: Edges of the told chances.
BINS = (0.0, 0.05, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.95, 0.99, 1.0)


class Told(NamedTuple):
    """One forecast, at one moment of one tool's making."""

    when: str
    forecast: Forecast
    # A zone whose end is still to be ground, as it is expected to be then; None when its section is settled.
    before_stone: Mapping[str, Form | None]


class Account(NamedTuple):
    """One figure told and whether it came true."""

    job: str
    when: str
    tool: int
    zone: str  # with the dimension, for a size; "" for the whole tool
    told: float
    true: bool


class Study(NamedTuple):
    """Everything noted of a batch of tools."""

    zones: list[Account]  # the chance that a zone's metal suffices
    tools: list[Account]  # the chance of the whole tool, where nothing but its metal is in doubt
    products: list[Account]  # the same as if its zones had nothing to do with one another
    out: list[Account]  # the chance of the whole tool, where a size is believed outside its limits
    spares: list[Account]  # the spare in brackets, told to be there with 95 % confidence
    sizes: list[Account]  # expected sizes with their 90 % figure
    volumes: list[Account]  # told: standard uncertainties from the expected volume to the true one
    passes: list[Account]  # the chance that every size of the drawing is inside both of its limits


@cache
def plan_of(text: str) -> Plan:
    return planned(text)


class _Smith:
    """One virtual smith at one tool, telling the ledger what the gauges say."""

    def __init__(self, job: Job, plan: Plan, forge: Forge) -> None:
        self.plan, self.forge = plan, forge
        self.now = at_stock(plan)
        self.told: list[Told] = []
        self.entry = 1
        self._told("at the stock", forecast(plan, None, self.now, 1), 1)
        for number, stage in enumerate(job.stages, start=1):
            self._step(number, stage)

    def _told(self, when: str, found: Forecast, number: int) -> None:
        before_stone: dict[str, Form | None] = {}
        steps = self.plan.recipe.steps
        for step in steps[number - 1 :]:
            if step.operation == "grind":
                (zone,) = step.zones
                ahead = steps[number - 1 : step.number]
                drawn = any(zone in one.zones and one.operation == "draw" for one in ahead)
                before = found.after.get(step.number - 1, self.now)
                before_stone[zone] = before.form(zone) if drawn else None
        self.told.append(Told(when, found, before_stone))

    def _step(self, number: int, stage: Stage) -> None:
        forge, plan = self.forge, self.plan
        step = plan.recipe.steps[number - 1]
        after = [forge.worked(work) for work in stage.works]
        marks: list[Mark] = []
        left = stage.heats
        if stage.half_way and left > 1:
            work = stage.works[0]
            heats = int(forge.chance.integers(1, left))
            marks += self._heats(heats)
            half_way = {work.zone: forge.half_way(work, after[0], heats)}
            course = self._measured(number, stage, half_way, marks)
            self._told("in a step", forecast(plan, course, self.now, number), number)
            left -= heats
        marks += self._heats(left)
        for work, form in zip(stage.works, after, strict=True):
            forge.done(work, form)
        self._measured(number, stage, forge.forms, marks)
        self.now = follow(plan, self.now, step, marks, finished=True).now
        self._told(f"after step {number}", forecast(plan, None, self.now, number + 1), number + 1)

    def _heats(self, count: int) -> list[Mark]:
        return [HeatMark(self._next()) for _ in range(count)]

    def _next(self) -> int:
        self.entry += 1
        return self.entry

    def _measured(self, number: int, stage: Stage, forms: Mapping[str, Form], marks: list[Mark]) -> Course:
        """Take some of the step's sizes; what is questioned is taken once more."""
        chance = self.forge.chance
        hot_c = HOT_C if stage.heats and chance.random() < 0.5 else None
        for check in stage.checks:
            for dimension, gauge in check.sizes.items():
                if chance.random() < TAKES:
                    marks.append(self._read(forms, check.zone, dimension, gauge, hot_c))
        step = self.plan.recipe.steps[number - 1]
        course = follow(self.plan, self.now, step, marks, finished=False)
        again = [outcome.mark.reading for outcome in course.outcomes if outcome.questioned]
        if again:
            marks += [self._read(forms, r.zone, r.dimension, r.gauge, r.hot_c) for r in again]
            course = follow(self.plan, self.now, step, marks, finished=False)
        return course

    def _read(
        self, forms: Mapping[str, Form], zone: str, dimension: str, gauge: str, hot_c: float | None
    ) -> ReadingMark:
        said = self.forge.read(forms[zone].size_mm(dimension), gauge, hot_c)
        return ReadingMark(self._next(), Reading(zone, dimension, said, gauge, hot_c))


def made(job: Job, tool: int, seed: int, study: Study, smith: Smith = AS_ASSUMED) -> None:
    """One tool, with everything that was told of it on the way held against what it became."""
    chance = np.random.default_rng((seed, tool))
    limits = int(chance.integers(len(job.limits)))
    plan = plan_of(job.text % job.limits[limits])
    forge = Forge(chance, job.bars, plan.start_mm3, job.limits[limits], smith)
    all_told = _Smith(job, plan, forge).told
    passed = _is_as_drawn(plan, forge)
    for told in all_told:
        will_pass = told.forecast.will_pass
        if will_pass is not None:
            study.passes.append(Account(job.name, told.when, tool, "", will_pass.chance, passed))
        enough = {}
        within_limits = []  # of the sizes that are believed to be out
        for zone, found in told.forecast.zones.items():
            about = (job.name, told.when, tool, zone)
            finished = forge.laid.get(zone, forge.forms[zone])
            enough[zone] = _had_metal(plan, forge, told, zone)
            study.zones.append(Account(*about, found.metal_chance, enough[zone]))
            study.spares.append(Account(*about, 0.95, _spare_was_there(plan, forge, told, found)))
            if zone not in forge.before_stone:
                off = (_metal_mm3(plan, forge, zone) - found.volume.value) / found.volume.doubt
                study.volumes.append(Account(*about, off, abs(off) <= BEYOND))
            for size in found.sizes:
                true_mm = finished.size_mm(size.dimension)
                within = abs(true_mm - size.expected.value) <= GUARD * (size.expected.doubt or 0.0)
                study.sizes.append(Account(*about[:3], f"{zone}.{size.dimension}", 0.90, within))
                if size.state != "good" and size.dimension not in plan.recipe.drawing[zone].take_up:
                    within_limits.append(size.wanted.limits.contains(true_mm))
        whole = (job.name, told.when, tool, "")
        chance_told = told.forecast.chance
        if within_limits:
            study.out.append(Account(*whole, chance_told, all(enough.values()) and all(within_limits)))
            continue
        zones = told.forecast.zones.values()
        # What came true is the metal only: how near sizes stand to their limits is left out of what was told.
        product = prod(zone.metal_chance for zone in zones)
        inside = prod(zone.chance / zone.metal_chance for zone in zones) if product else 1.0
        metal = chance_told / inside if inside else product
        study.tools.append(Account(*whole, metal, all(enough.values())))
        study.products.append(Account(*whole, product, all(enough.values())))


def _had_metal(plan: Plan, forge: Forge, told: Told, zone: str) -> bool:
    """Whether the volume suffices for nominal sizes with the take-up dimensions at their low limits.

    What this forge's scale takes off sizes once they are made, more or less than the plan's, is not lacking.
    """
    if zone in forge.before_stone:
        return _true_spare(plan, forge, told, zone, "length", forge.forms[zone]) >= 0.0
    return _metal_mm3(plan, forge, zone) >= plan.least_mm3[zone]


def _is_as_drawn(plan: Plan, forge: Forge) -> bool:
    """Whether every size of the drawing came inside both of its limits; of laid steel, as it went on."""
    return all(
        limits.contains(forge.laid.get(zone, forge.forms[zone]).size_mm(name))
        for zone, drawing in plan.recipe.drawing.items()
        for name, limits in drawing.limits.items()
    )


def _metal_mm3(plan: Plan, forge: Forge, zone: str) -> float:
    volume = forge.laid.get(zone, forge.forms[zone]).volume_mm3()
    return volume + (forge.scale - 1.0) * plan.worn_mm3[zone]


def _spare_was_there(plan: Plan, forge: Forge, told: Told, found: ZoneForecast) -> bool:
    doubts = {size.dimension: size.expected.doubt for size in found.sizes}
    for spare in found.spares:
        if spare.spare.doubt == doubts.get(spare.dimension):  # of a size that was read, and that stays
            form = forge.laid.get(found.zone, forge.forms[found.zone])
            low = plan.recipe.drawing[found.zone].limits[spare.dimension].low
            true = form.size_mm(spare.dimension) - low
        else:
            true = _true_spare(plan, forge, told, found.zone, spare.dimension, _expected(plan, found))
        if true < spare.spare.at_least.value:
            return False
    return True


def _expected(plan: Plan, found: ZoneForecast) -> Form:
    sizes = {size.dimension: size.expected.value for size in found.sizes}
    return plan.recipe.drawing[found.zone].shape.form(sizes)


def _true_spare(plan: Plan, forge: Forge, told: Told, zone: str, dimension: str, form: Form) -> float:
    """What the metal truly there makes of a take-up dimension, at the sizes believed, over its least."""
    low = plan.recipe.drawing[zone].limits[dimension].low
    if zone in told.before_stone:
        true, expected = forge.before_stone[zone], told.before_stone[zone]
        if expected is not None:
            true = expected.solved(dimension, true.volume_mm3())
        return true.size_mm(dimension) - low
    if zone in forge.before_stone:  # ground already: the size itself
        return forge.forms[zone].size_mm(dimension) - low
    lacks = told.forecast.zones[zone].volume.value - _metal_mm3(plan, forge, zone)
    return form.solved(dimension, form.volume_mm3() - lacks).size_mm(dimension) - low


def studied(jobs: Iterable[Job], tools: int, seed: int, smith: Smith = AS_ASSUMED) -> Study:
    """So many tools of each job."""
    study = Study([], [], [], [], [], [], [], [])
    for job in jobs:
        for tool in range(tools):
            made(job, tool, seed, study, smith)
    return study


def one_each(accounts: Sequence[Account], seed: int) -> list[Account]:
    """One account of each tool, by lot: what is told of one tool twice does not come true independently."""
    chance = np.random.default_rng(seed)
    of_tool: dict[tuple[str, int], list[Account]] = {}
    for account in accounts:
        of_tool.setdefault((account.job, account.tool), []).append(account)
    return [of[int(chance.integers(len(of)))] for of in of_tool.values()]


class Row(NamedTuple):
    """The accounts whose told chance lies in one bin."""

    low: float
    high: float
    tools: int
    told: float  # mean
    true: float  # share
    off: float  # standard deviations of a sum of independent trials


def reliability(accounts: Iterable[Account], bins: Sequence[float] = BINS) -> list[Row]:
    """What was told and what came true, bin by bin."""
    rows = []
    told = np.array([(account.told, account.true) for account in accounts], dtype=float)
    for low, high in pairwise(bins):
        inside = told[(told[:, 0] >= low) & ((told[:, 0] < high) | (high == 1.0))]
        if not len(inside):
            continue
        chances = inside[:, 0]
        spread = sqrt(float((chances * (1.0 - chances)).sum()))
        off = float(inside[:, 1].sum() - chances.sum())
        rows.append(
            Row(
                low,
                high,
                len(inside),
                float(chances.mean()),
                float(inside[:, 1].mean()),
                off / max(spread, 0.5),
            )
        )
    return rows


def coverage(accounts: Iterable[Account]) -> tuple[int, float, float]:
    """How many, the share that came true, and how far that is off, in standard deviations."""
    (row,) = reliability(accounts, (0.0, 1.0))
    return row.tools, row.true, row.off


def brier(accounts: Sequence[Account]) -> float:
    """The mean square of what was told less what came true."""
    return sum((one.told - one.true) ** 2 for one in accounts) / len(accounts)


def at_the_end(study: Study) -> list[Account]:
    """What was told of each tool last."""
    return list({(one.job, one.tool): one for one in study.passes}.values())


def _print_hands(tools: int, seed: int) -> None:
    print("\n| hand | came true | told, mean | Brier | at the end |\n|---|---|---|---|---|")
    for smith in (AS_ASSUMED, Smith(mends=True), Smith(scatter=1.7), Smith(scatter=0.6)):
        study = studied(JOBS, tools, seed, smith)
        told, true = (sum(of) / len(of) for of in zip(*((o.told, o.true) for o in study.passes), strict=True))
        scores = f"{brier(study.passes):.3f} | {brier(at_the_end(study)):.3f}"
        print(f"| {smith} | {true:.0%} | {told:.0%} | {scores} |")


def _print_rows(title: str, rows: Iterable[Row]) -> None:
    print(f"\n{title}\n\n| told | tools | told, mean | came true | off by |\n|---|---|---|---|---|")
    for low, high, tools, told, true, off in rows:
        print(f"| {low:.0%} to {high:.0%} | {tools} | {told:.1%} | {true:.1%} | {off:+.1f} σ |")


def main(tools: int, seed: int) -> None:
    study = studied(JOBS, tools, seed)
    print(f"{tools * len(JOBS)} tools, seed {seed}, {len(study.tools) + len(study.out)} forecasts")
    _print_rows("A zone's metal", reliability(one_each(study.zones, seed)))
    _print_rows("The whole tool", reliability(one_each(study.tools, seed)))
    _print_rows("The whole tool by the bare product", reliability(one_each(study.products, seed)))
    _print_rows("A size believed outside its limits", reliability(one_each(study.out, seed)))
    _print_rows("Will pass", reliability(one_each(study.passes, seed)))
    _print_hands(tools // 10, seed)
    for title, accounts in (("At least", study.spares), ("Sizes", study.sizes)):
        print(f"\n{title}\n\n| recipe | tools | came true | off by |\n|---|---|---|---|")
        for job in JOBS:
            mine = [account for account in accounts if account.job == job.name]
            count, share, off = coverage(one_each(mine, seed))
            print(f"| {job.name} | {count} | {share:.1%} | {off:+.1f} σ |")
    print("\nBy moment\n\n| when | told, mean | came true | at least | sizes |\n|---|---|---|---|---|")
    for when in dict.fromkeys(account.when for account in study.zones):
        zones = [account for account in study.zones if account.when == when]
        shares = [
            sum(account.true for account in accounts if account.when == when)
            / sum(account.when == when for account in accounts)
            for accounts in (study.spares, study.sizes)
        ]
        told = sum(account.told for account in zones) / len(zones)
        true = sum(account.true for account in zones) / len(zones)
        print(f"| {when} | {told:.1%} | {true:.1%} | {shares[0]:.1%} | {shares[1]:.1%} |")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000, 1926)
