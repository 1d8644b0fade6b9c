"""What a job of a recipe would be begun with of the shop and of the hand, where there is a log of jobs."""

from __future__ import annotations

import os
from contextlib import closing, suppress
from typing import TYPE_CHECKING

from coach.cli.opening import fire_and_hammer_set, memory_here, shop_path
from coach.cli.reply import Asked
from coach.quantities.refusal import Refusal

if TYPE_CHECKING:
    from coach.bench.begun_with import Known
    from coach.recipe.model import Recipe


def known_here(asked: Asked, recipe: Recipe) -> tuple[Known, ...]:
    """What the jobs of the log have taught; nothing where there is none, or none that can be read.

    Whoever opens such a log is told what is wrong with it; a recipe is planned all the same.
    """
    path = shop_path(asked)
    if not os.path.lexists(path):
        return ()
    from coach.bench.beginnings import Plans
    from coach.bench.known_shop import JobsBefore, begins_with, made_with
    from coach.log.jobs import Log

    made = made_with(fire_and_hammer_set(), recipe)
    with suppress(Refusal), closing(Log(path, read_only=True, whole=False)) as log:
        return begins_with(JobsBefore(log, Plans(), memory_here()), made)
    return ()


def how_far_it_goes(asked: Asked) -> str:
    """What tells the log as it is from what it was; "" where there is none, or none that can be read."""
    path = shop_path(asked)
    if os.path.lexists(path):
        from coach.log.newest import end_of

        with suppress(Refusal):
            return repr(end_of(path))
    return ""
