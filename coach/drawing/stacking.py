"""Several views of one piece in cells, one under the other and all to one scale."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from coach.drawing.braille import LEAST_COLUMNS, LEAST_ROWS, picture, scale_mm_per_dot
from coach.drawing.cells import Line
from coach.drawing.views import View
from coach.telling.writing import Shown

_METRIC = Shown()


def stacked(
    now: Sequence[View],
    wanted: Sequence[View],
    columns: int,
    rows: int,
    *,
    shown: Shown | None = _METRIC,
) -> tuple[Line, ...]:
    """The views of what is there and of what is wanted in pairs, as `picture` draws each.

    Either sequence may be empty. The rows are shared out so that the common scale is as large as it can be;
    where there are too few for all, only the first pair is drawn.

    Returns:
        At most `rows` lines; none below 8 by 3 cells, or where there is nothing to draw.
    """
    pairs = list(zip_longest(now, wanted))
    if not pairs or columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        return ()
    if len(pairs) * LEAST_ROWS > rows:
        pairs = pairs[:1]
    seen = [[view for view in pair if view is not None] for pair in pairs]

    def scales(given: Sequence[int]) -> list[float]:
        return [
            scale_mm_per_dot(views, columns, lines, figures=shown is not None)
            for views, lines in zip(seen, given, strict=True)
        ]

    given = [LEAST_ROWS] * len(pairs)
    for _ in range(rows - sum(given)):
        # The view that holds the scale back takes the next row; of several alike, the one with fewest.
        found = scales(given)
        given[min(range(len(pairs)), key=lambda i: (-found[i], given[i]))] += 1
    scale = max(scales(given))
    return tuple(
        line
        for (one, other), lines in zip(pairs, given, strict=True)
        for line in picture(one, other, columns, lines, shown=shown, mm_per_dot=scale)
    )
