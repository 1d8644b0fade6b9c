"""Print the ratios: `python -m tests.benchmarks [--rounds N]`."""

from __future__ import annotations

import argparse
import platform
import sys
import tempfile
from pathlib import Path

from tests.benchmarks import empty_app, long_job, part_forged, recompute
from tests.benchmarks.processes import coach_command, seconds_to_end, seconds_to_first_paint
from tests.benchmarks.timing import Comparison, compare

FIRST_SCREEN_SHOWS = "Heat"


def version_beside_nothing(rounds: int) -> Comparison:
    """`coach --version` held against an interpreter that does nothing."""
    return compare(
        "coach --version",
        lambda: seconds_to_end([*coach_command(), "--version"]),
        "python -c pass",
        lambda: seconds_to_end([sys.executable, "-c", "pass"]),
        rounds,
    )


def bench_beside_an_empty_app(rounds: int) -> Comparison:
    """The bench opened on a part-forged job held against an empty application, each to its first screen."""
    with tempfile.TemporaryDirectory() as home:
        environ = part_forged.environ_of_a_shop(Path(home))
        opening = part_forged.put_on_the_anvil(environ)
        empty = [sys.executable, "-m", empty_app.__name__]
        return compare(
            f"coach open, {part_forged.RECIPE} part forged",
            lambda: seconds_to_first_paint(opening, FIRST_SCREEN_SHOWS, environ),
            "an empty application",
            lambda: seconds_to_first_paint(empty, empty_app.TEXT, environ),
            rounds,
        )


def main() -> int:
    """Measure and print; 0 when everything was measured."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("--rounds", type=int, default=9, help="rounds of each measurement (default 9)")
    rounds = parser.parse_args().rounds
    print(f"Python {platform.python_version()} on {platform.system()}; medians of {rounds} rounds, in turn")
    print(version_beside_nothing(rounds).line(), flush=True)
    print(bench_beside_an_empty_app(rounds).line(), flush=True)
    for line in recompute.report(long_job.prepare, rounds):
        print(line, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
