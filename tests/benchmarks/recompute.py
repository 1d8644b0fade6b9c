"""How long a job takes to be reckoned anew, and whether that grows in step with its length."""

from __future__ import annotations

from collections.abc import Callable

from tests.benchmarks.timing import Comparison, compare, seconds_taken

SHORT_JOB_STEPS = 40
LONG_JOB_STEPS = 1000

# From a number of steps, make the job ready, and give back the work to be timed.
Prepare = Callable[[int], Callable[[], object]]


def cost_of_a_step(prepare: Prepare, rounds: int) -> Comparison:
    """The cost of one step in a long job held against that in a short one; 1 means linear in the steps.

    The times are seconds per step. The jobs are made ready beforehand and are not part of them.
    """
    short, long = prepare(SHORT_JOB_STEPS), prepare(LONG_JOB_STEPS)
    return compare(
        f"a step of {LONG_JOB_STEPS}",
        lambda: seconds_taken(long) / LONG_JOB_STEPS,
        f"a step of {SHORT_JOB_STEPS}",
        lambda: seconds_taken(short) / SHORT_JOB_STEPS,
        rounds,
    )


def report(prepare: Prepare, rounds: int) -> list[str]:
    """The whole recompute of both jobs in milliseconds, and how the cost of a step has grown."""
    cost = cost_of_a_step(prepare, rounds)
    short_ms = cost.beside_median_s * SHORT_JOB_STEPS * 1000
    long_ms = cost.median_s * LONG_JOB_STEPS * 1000
    return [
        f"recompute at {SHORT_JOB_STEPS} steps{short_ms:12.2f} ms",
        f"recompute at {LONG_JOB_STEPS} steps{long_ms:10.2f} ms   cost of a step, ratio {cost.ratio:.2f}",
    ]
