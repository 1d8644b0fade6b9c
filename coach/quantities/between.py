"""What a table says between two of its rows."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence


def between(rows: Sequence[tuple[float, float]], at: float) -> float:
    """The second column where the first, which rises from row to row, is `at`: straight between two rows.

    What lies outside the table is for the caller to refuse.

    >>> between([(0.0, 10.0), (2.0, 20.0), (4.0, 60.0)], 3.0)
    40.0
    """
    after = max(1, bisect_left(rows, (at,)))
    (before, first), (next_, second) = rows[after - 1], rows[after]
    return first + (at - before) / (next_ - before) * (second - first)
