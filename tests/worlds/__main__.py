"""Print the tables: `python -m tests.worlds [TOOLS EACH] [WORLD ...]`."""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor

from tests.worlds.figures import Figures, bins, figures
from tests.worlds.study import Moment, studied
from tests.worlds.tools import TOOLS
from tests.worlds.worlds import WORLDS

SEED = 1911


def of_world(name: str, each: int) -> list[Moment]:
    """So many of each tool, in a world by its name."""
    return studied(TOOLS, each, WORLDS[name], SEED)


def row(name: str, of: Figures) -> str:
    """One world's line of the table."""
    return (
        f"| {name} | {of.on_plan:.0%} | {of.on_plan_true:.0%} "
        f"| {of.false_alarms:.0%} ({of.alarms:.0%}) | {of.missed:.1%} "
        f"| {of.so_far_brier:.3f} | {of.told_at_stock:.0%}, {of.passed:.0%} | {of.brier:.3f} "
        f"| {of.brier_at_end:.3f} | {of.scale_off:+.2f}, {of.scale_cover:.0%} |"
    )


def main(each: int, names: list[str]) -> None:
    """Every world's line, and the bins of the first."""
    print(f"{each * len(TOOLS)} tools a world, seed {SEED}\n")
    print(
        "| world | on plan | true | false | missed | Brier so far "
        "| stock: told, came | Brier | at the end | scale |"
    )
    print("|---|---|---|---|---|---|---|---|---|---|")
    with ProcessPoolExecutor(2) as pool:
        found = {}
        for name, moments in zip(names, pool.map(of_world, names, [each] * len(names)), strict=True):
            found[name] = moments
            print(row(name, figures(moments)), flush=True)
    print_bins(f"{names[0]}, so far", [(one.chance, one.was_so) for one in found[names[0]]])
    print_bins(f"{names[0]}, will pass", [(one.will_pass, one.passed) for one in found[names[0]]])


def print_bins(title: str, told: list[tuple[float, bool]]) -> None:
    """What was told and what came true, by tenths."""
    print(f"\n{title}\n\n| told | moments | told, mean | came true |\n|---|---|---|---|")
    for one in bins(told):
        print(f"| {one.low:.0%} to {one.high:.0%} | {one.moments} | {one.told:.1%} | {one.true:.1%} |")


if __name__ == "__main__":
    given = sys.argv[1:]
    main(int(given[0]) if given else 100, given[1:] or list(WORLDS))
