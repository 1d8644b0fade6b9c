"""The finished piece of a job or a recipe, which the shop shows beside its lists."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from coach.bench.glance import JobSummary
from coach.log.status import JobStatus

if TYPE_CHECKING:
    from collections.abc import Sequence

    from coach.bench.shop import Shop
    from coach.drawing.views import View
    from coach.ledger.plan import Plan
    from coach.recipe.library import RecipeEntry


def plan_of(chosen: JobSummary | RecipeEntry, shop: Shop) -> Plan | None:
    """The plan of a job or of a recipe; None of one that is damaged or has faults. Raises Refusal."""
    if isinstance(chosen, JobSummary):
        return None if chosen.state is JobStatus.DAMAGED else shop.open(chosen.job).plan
    if chosen.faults:
        return None
    from coach.ledger.looking_back import look_back
    from coach.recipe.reader import read_recipe_file

    return look_back(read_recipe_file(Path(chosen.path)))


def finished(plan: Plan | None) -> tuple[str, Sequence[View]]:
    """What a picture of the finished piece is called, and its views; nothing of no plan."""
    from coach.drawing.job import finished_views, host_pieces

    piece = next(iter(host_pieces(plan)), None) if plan is not None else None
    views = finished_views(plan, piece) if plan is not None and piece is not None else ()
    return f"{plan.recipe.title}, finished" if plan is not None else "", views
