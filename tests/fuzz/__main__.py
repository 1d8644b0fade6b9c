"""Try so many of each family: `python -m tests.fuzz [COUNT] [--only FAMILY …] [--seed N]`."""

from __future__ import annotations

import argparse
import sys
import traceback
from collections import Counter
from datetime import timedelta
from importlib import import_module
from random import SystemRandom
from time import monotonic
from typing import Any

from hypothesis import HealthCheck, given, seed, settings

FAMILIES = ("sizes", "lines", "recipes", "grades", "imports", "bodies", "keys")
_SLOWEST = timedelta(seconds=20)
_LONGEST = 6000


def tried(family: str, count: int, number: int) -> tuple[int, str]:
    """How many of a family were tried, and what failed: the smallest that does, with its traceback."""
    module: Any = import_module(f"tests.fuzz.{family}")
    counted: Counter[str] = Counter()

    @seed(number)
    @settings(
        max_examples=count,
        deadline=_SLOWEST,
        database=None,
        suppress_health_check=list(HealthCheck),
        print_blob=False,
    )
    @given(module.VALUES)
    def all_of_them(value: object) -> None:
        counted["tried"] += 1
        module.check(value)

    try:
        all_of_them()
    except BaseException as error:
        if isinstance(error, KeyboardInterrupt):
            raise
        return counted["tried"], _short(traceback.format_exc(limit=-6))
    return counted["tried"], ""


def _short(told: str) -> str:
    """A failure without the middle of it, where a whole recipe may stand."""
    return told if len(told) <= _LONGEST else f"{told[: _LONGEST // 2]}\n…\n{told[-_LONGEST // 2 :]}"


def main() -> int:
    """Try them, print the figures; 0 when nothing failed."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=500, help="how many of each (default 500)")
    parser.add_argument("--only", nargs="+", default=list(FAMILIES), choices=FAMILIES)
    parser.add_argument("--seed", type=int, default=SystemRandom().randrange(10**6), help="of the chances")
    asked = parser.parse_args()
    failed = False
    for family in asked.only:
        begun = monotonic()
        count, fault = tried(family, asked.count, asked.seed)
        told = "nothing failed" if not fault else f"FAILED\n{fault}"
        print(f"{count:6} {family} (seed {asked.seed}) in {monotonic() - begun:.0f} s: {told}", flush=True)
        failed = failed or bool(fault)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
