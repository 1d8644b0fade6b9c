"""The bench's work in a large window: what to do, and beside it the sizes and what is longest to read.

What would make the left the longer of the two stands below the sizes, so that little gives way and the
picture of the piece finds its room.
"""

from __future__ import annotations

from typing import NamedTuple

from textual.content import Content

from coach.bench.checks import Check
from coach.bench.standing import Standing
from coach.quantities.words import counted
from coach.screens.bench_work import DRAWING, WHY, Told, do_lines, do_rule, ended, folded
from coach.screens.size_rows import size_rows
from coach.screens.widgets.pane import rule, side_by_side
from coach.screens.wording import Ink, one_line
from coach.telling.writing import Shown

#: What may stand below the sizes, the first first.
_BELOW_THE_SIZES = (DRAWING, "Know", "Time", "Keep", "Rest", "Watch", "Fix", "Test")
#: What is left out where there is no room for it.
_ALSO = ("Know", "Time", DRAWING)


class Beside(NamedTuple):
    """What is told of the work in two columns."""

    left: list[Told]
    sizes: list[Content]
    below: list[Told]  # the sizes

    @property
    def rows(self) -> int:
        """How many rows it wants with its heading, without what there is only to know."""
        below = 1 + _rows(self.below) if _rows(self.below) else 0
        return max(1 + _rows(self.left), len(self.sizes) + below)


def beside(
    standing: Standing, chosen: Check | None, shown: Shown, left: int, right: int, *, why: bool = True
) -> Beside:
    """The work in hand, its columns so many cells wide; `why` it is not on plan, unless that stands below."""
    sizes = size_rows(standing.checks, chosen, shown, right) or _without_sizes(standing, right)
    step = standing.step
    if step is None:
        return Beside([], sizes, [])
    # The same is set for the one column and for the other.
    told, again = (
        [
            one
            for one in do_lines(standing, step, shown, width, chosen)
            if why or one.label not in WHY.values()
        ]
        for width in (left, right)
    )
    moved: set[int] = set()
    for label in _BELOW_THE_SIZES:
        for at in [at for at, one in enumerate(told) if one.label == label]:
            tall = 1 + sum(len(one.lines) for n, one in enumerate(told) if n not in moved)
            low = len(sizes) + 1 + sum(len(again[n].lines) for n in (*moved, at))
            if low < tall:
                moved.add(at)
    return Beside(
        [one for n, one in enumerate(told) if n not in moved],
        sizes,
        [one for n, one in enumerate(again) if n in moved],
    )


def work_beside_sizes(
    standing: Standing,
    chosen: Check | None,
    shown: Shown,
    width: int,
    left: int,
    rows: int,
    *,
    why: bool = True,
) -> list[Content]:
    """The lines of both columns in so many rows."""
    right, step = width - 1 - left, standing.step
    if step is None:
        work = [rule("Done", left), *ended(standing, shown, left)]
        return side_by_side([(work, left), (_without_sizes(standing, right), right)])
    parts = beside(standing, chosen, shown, left, right, why=why)
    # Sizes fold before they are cut; what stands below them begins after an empty row.
    sizes = size_rows(standing.checks, chosen, shown, right, rows) or parts.sizes
    room = rows - len(sizes) - 1
    below = [Content(""), *folded(parts.below, room, right, step)[:room]] if parts.below and room > 0 else []
    work = [do_rule(standing, left), *folded(parts.left, rows - 1, left, step)]
    return side_by_side([(work, left), ([*sizes, *below], right)])


def _without_sizes(standing: Standing, width: int) -> list[Content]:
    told = "This step asks for no measurement."
    if standing.step is None:
        unread = sum(not one.measured for one in standing.sizes)
        told = f"{counted(unread, 'size')} of the drawing not measured." if unread else "All are read."
    return [rule("Sizes", width), one_line(told, Ink.QUIET, indent=1)]


def _rows(told: list[Told]) -> int:
    return sum(len(one.lines) for one in told if one.label not in _ALSO)
