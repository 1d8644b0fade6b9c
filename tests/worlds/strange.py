"""A virtual smith's jobs one after another in one shop, each plan begun with what those before have taught.

`python -m tests.worlds.strange [SHOPS] [WORLD ...]` prints the table of docs/calibration.md.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from math import sqrt
from statistics import mean
from typing import NamedTuple

from coach.bench.shop import Shop
from coach.log.kinds.hand_known import HandKnown
from tests.bench.jobs import shop
from tests.worlds.smithy import Smithy
from tests.worlds.study import Moment, forged
from tests.worlds.tools import EASES, TOOLS, Tool
from tests.worlds.worlds import WORLDS, World

SEED = 1917
#: So many jobs are forged before one counts, and so many count then.
BEFORE, AFTER = 10, 8
#: How far what is told of the first plans may be from what comes of them, once ten jobs are forged.
MOST_OFF = 0.04
#: What comes of a plan is what comes of so many such tools: one of each says so by chance, ± 4 points of 96.
AGAIN = 1000


class FirstPlan(NamedTuple):
    """One job as it was begun, and what came of it."""

    job: int  # from 0, in its shop
    told: float  # that it will pass
    metal: float  # that nothing prevents it
    passed: bool
    comes: float  # of as many as `AGAIN` of the same tool and limits in this world, how many pass
    by_book: float  # that it will pass, told in a shop that has forged nothing
    scatter: float  # of the hand that it was begun with, in usual ones
    scale: float  # the factor that it was begun with


def in_one_shop(
    world: World, seed: int, jobs: int = BEFORE + AFTER, at: Shop | None = None
) -> Iterator[FirstPlan]:
    """So many jobs in one shop, of tools and limits by turns."""
    at = at or shop()
    for job in range(jobs):
        tool = TOOLS[(job + seed) % len(TOOLS)]
        turn = job + job // len(TOOLS) + seed // len(TOOLS) + seed  # that each tool has all of the limits
        moments = forged(tool, turn, world, SEED + 1000 * seed + job, at)
        first: Moment = moments[0]
        book = forged_first(tool, turn)
        entries = at.log.entries(at.log.latest_first()[0].job)
        hand = next((one.body.scatter for one in entries if isinstance(one.body, HandKnown)), 1.0)
        comes = comes_of(tool, turn, world)
        yield FirstPlan(job, first.will_pass, first.chance, first.passed, comes, book, hand, first.scale[0])


def forged_first(tool: Tool, number: int) -> float:
    """What is told of a tool as it is begun in a shop that has forged nothing."""
    standing = shop().begin(tool.text(EASES[number % len(EASES)]), "book.yaml").standing()
    return standing.chance if standing.will_pass is None else standing.will_pass.chance


def comes_of(tool: Tool, number: int, world: World) -> float:
    """How many of a thousand such tools come out inside their drawing, as a share."""
    at, ease = TOOLS.index(tool), number % len(EASES)
    return _comes_of(at, ease, world)


@cache
def _comes_of(at: int, ease: int, world: World) -> float:
    tool = TOOLS[at].cut_first if world.weighs else TOOLS[at]
    plan = shop().begin(tool.text(EASES[ease]), "again.yaml").plan
    stock = {zone: plan.bar_of(zone).size_mm("length") for zone in tool.drawing}
    passed = 0
    for again in range(AGAIN):
        made = Smithy(tool, EASES[ease], world, stock, (SEED, at, ease, again))
        for step in tool.steps:
            made.done(step)
        passed += made.passed()
    return passed / AGAIN


def of_world(name: str, shops: int) -> list[FirstPlan]:
    """So many shops of a world by its name."""
    return [one for seed in range(shops) for one in in_one_shop(WORLDS[name], seed)]


def row(name: str, plans: Sequence[FirstPlan]) -> str:
    """A world's line, of the plans after ten jobs: what the book told of them, what the shop, what came."""
    later = [one for one in plans if one.job >= BEFORE]
    came, comes = mean(one.passed for one in later), mean(one.comes for one in later)
    by_chance = sqrt(sum(one.told * (1.0 - one.told) for one in later)) / len(later)
    book, told = (mean(getattr(one, which) for one in later) for which in ("by_book", "told"))
    scores = [mean(_brier(getattr(one, which), one.comes) for one in later) for which in ("by_book", "told")]
    hand, scale = mean(one.scatter for one in later), mean(one.scale for one in later)
    return (
        f"| {name} | {len(later)} | {book:.0%} | {told:.0%} | {comes:.1%} | {came:.0%} | {by_chance:.1%} "
        f"| {scores[0]:.3f} | {scores[1]:.3f} | {hand:.2f} | {scale:.2f} |"
    )


def _brier(told: float, comes: float) -> float:
    """The score that is to be looked for of what is told, where such a share passes."""
    return (told - comes) ** 2 + comes * (1.0 - comes)


def main(shops: int, names: list[str]) -> None:
    """Every world's line."""
    print(f"{shops} shops a world, {BEFORE + AFTER} jobs in each, seed {SEED}\n")
    print(
        "| world | plans | the book told | the shop told | comes true | each once | by chance ± "
        "| Brier, book | shop | hand | scale |\n|---|---|---|---|---|---|---|---|---|---|---|"
    )
    with ProcessPoolExecutor(2) as pool:
        for name, plans in zip(names, pool.map(of_world, names, [shops] * len(names)), strict=True):
            print(row(name, plans), flush=True)


if __name__ == "__main__":
    given = sys.argv[1:]
    main(int(given[0]) if given else 40, given[1:] or list(WORLDS))
