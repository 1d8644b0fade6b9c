"""A virtual smith's jobs one after another in one shop, each plan begun with what those before have taught.

`python -m tests.worlds.strange [SHOPS] [WORLD ...]` prints the table of docs/calibration.md.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from math import sqrt
from statistics import mean
from typing import NamedTuple

from coach.bench.shop import Shop
from coach.log.kinds.hand_known import HandKnown
from tests.bench.jobs import shop
from tests.worlds.study import Moment, forged
from tests.worlds.tools import EASES, TOOLS, Tool
from tests.worlds.worlds import WORLDS, World

SEED = 1917
#: So many jobs are forged before one counts, and so many count then.
BEFORE, AFTER = 10, 8
#: How far what is told of the first plans may be from what comes of them, once ten jobs are forged.
MOST_OFF = 0.04


class FirstPlan(NamedTuple):
    """One job as it was begun, and what came of it."""

    job: int  # from 0, in its shop
    told: float  # that it will pass
    metal: float  # that nothing prevents it
    passed: bool
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
        yield FirstPlan(job, first.will_pass, first.chance, first.passed, book, hand, first.scale[0])


def forged_first(tool: Tool, number: int) -> float:
    """What is told of a tool as it is begun in a shop that has forged nothing."""
    standing = shop().begin(tool.text(EASES[number % len(EASES)]), "book.yaml").standing()
    return standing.chance if standing.will_pass is None else standing.will_pass.chance


def of_world(name: str, shops: int) -> list[FirstPlan]:
    """So many shops of a world by its name."""
    return [one for seed in range(shops) for one in in_one_shop(WORLDS[name], seed)]


def row(name: str, plans: Sequence[FirstPlan]) -> str:
    """A world's line, of the plans after ten jobs: what the book told of them, what the shop, what came."""
    later = [one for one in plans if one.job >= BEFORE]
    came = mean(one.passed for one in later)
    by_chance = sqrt(sum(one.told * (1.0 - one.told) for one in later)) / len(later)
    book, told = (mean(getattr(one, which) for one in later) for which in ("by_book", "told"))
    scores = [mean((getattr(one, which) - one.passed) ** 2 for one in later) for which in ("by_book", "told")]
    hand, scale = mean(one.scatter for one in later), mean(one.scale for one in later)
    return (
        f"| {name} | {len(later)} | {came:.0%} | {book:.0%} | {told:.0%} | {by_chance:.1%} "
        f"| {scores[0]:.3f} | {scores[1]:.3f} | {hand:.2f} | {scale:.2f} |"
    )


def main(shops: int, names: list[str]) -> None:
    """Every world's line."""
    print(f"{shops} shops a world, {BEFORE + AFTER} jobs in each, seed {SEED}\n")
    print(
        "| world | plans | came true | the book told | the shop told | by chance ± "
        "| Brier, book | shop | hand | scale |\n|---|---|---|---|---|---|---|---|---|---|"
    )
    with ProcessPoolExecutor(2) as pool:
        for name, plans in zip(names, pool.map(of_world, names, [shops] * len(names)), strict=True):
            print(row(name, plans), flush=True)


if __name__ == "__main__":
    given = sys.argv[1:]
    main(int(given[0]) if given else 40, given[1:] or list(WORLDS))
