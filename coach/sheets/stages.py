"""The outlines of a piece step by step, as far as they can be drawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from coach.bench.forms_by_step import FormsAfter
from coach.drawing.job import piece_solids, views_now
from coach.drawing.outlines import Stage
from coach.drawing.views import DrawingError, View, plan_view
from coach.forms import Form, FormError
from coach.ledger.plan import Plan


def stages_of(plan: Plan, piece: str, stages: Iterable[FormsAfter]) -> list[Stage]:
    """The outline of a piece after each step that works on it, as far as it can be drawn."""
    zones = {*plan.recipe.pieces[piece].zones, *plan.recipe.pieces[piece].finished_zones}
    found: list[Stage] = []
    for stage in stages:
        if stage.step and not zones & {*stage.zones}:
            continue
        view = _view(plan, piece, stage.forms)
        if view is not None:
            label = f"{stage.step}. {stage.title}" if stage.step else stage.title
            found.append(Stage(label, view, stage.zones, stage.long_doubt_mm.get(piece, 0.0)))
    return found


def _view(plan: Plan, piece: str, forms: Mapping[str, Form]) -> View | None:
    try:
        if not views_now(plan, piece, forms):
            return None
        return plan_view(piece_solids(plan, piece, forms))
    except (DrawingError, FormError, KeyError):
        return None
