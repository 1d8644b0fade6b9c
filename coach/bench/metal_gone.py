"""What went of each zone's spare in each step, from its beginning to its end, and by each loss."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import pairwise
from typing import NamedTuple

from coach.bench.looking_back import MomentOfSpare, SpareGone


class Fall(NamedTuple):
    """The spare of a zone that went within one step."""

    first: MomentOfSpare  # as the job began
    before: MomentOfSpare
    after: MomentOfSpare

    @property
    def mm(self) -> float:
        """How much of it went."""
        return self.before.spare.value - self.after.spare.value

    @property
    def step(self) -> int:
        """The step that it went in: the one that was in hand before."""
        return self.before.step


def falls(gone: SpareGone, losses: Collection[int]) -> Iterator[Fall]:
    """What went of each zone from the beginning of a step to its end, and by each loss; `losses` are entries.

    What was read on the way, and worked or read otherwise since, is no metal that was there.
    """
    by_size: dict[tuple[str, str], list[MomentOfSpare]] = {}
    for point in gone.points:
        by_size.setdefault((point.zone, point.dimension), []).append(point)
    for points in by_size.values():
        begun = points[0]
        for before, after in pairwise(points):
            apart = after.entry in losses or after.entry in gone.redrawn
            if apart and before is not begun:
                yield Fall(points[0], begun, before)
            if after.entry in losses:
                yield Fall(points[0], before, after)
            elif after.entry not in gone.redrawn and after.step == before.step:
                continue
            elif after.entry not in gone.redrawn:
                yield Fall(points[0], begun, after)
            begun = after  # another drawing took no metal
        if begun is not points[-1]:
            yield Fall(points[0], begun, points[-1])
