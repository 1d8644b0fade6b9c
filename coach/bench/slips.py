"""Readings that stand though they were told to be impossible: a slip is the first thing to think of."""

from __future__ import annotations

from coach.bench.checks import Check
from coach.quantities.figure import Kind


def may_be_a_slip(check: Check) -> bool:
    """Whether a reading counts, by being read twice or insisted on, that its step could not make."""
    read = check.reading
    if read is None or read.questioned or read.old or check.kind is Kind.TEST:
        return False
    return read.least_possible is not None or read.most_possible is not None
