"""What there is to draw of a job and of a plan: piece, stock and finished tool, plan and side view."""

from __future__ import annotations

from collections.abc import Mapping

from coach.drawing.solids import DrawingError, Solid, piece_solids, stock_solids
from coach.drawing.views import View, plan_view, side_view
from coach.forms import Form, FormError
from coach.ledger.plan import Plan


def views_of(solids: tuple[Solid, ...]) -> tuple[View, ...]:
    """Plan and side view; none where a size cannot be drawn yet."""
    try:
        return plan_view(solids), side_view(solids)
    except (DrawingError, FormError):
        return ()


def views_now(plan: Plan, piece: str, forms: Mapping[str, Form]) -> tuple[View, ...]:
    """A piece as its zones are; none while one of them cannot be told."""
    zones = plan.recipe.pieces[piece].zones
    if not set(zones) <= forms.keys():
        return ()
    return views_of(piece_solids(plan, piece, forms))


def stock_views(plan: Plan, piece: str) -> tuple[View, ...]:
    """The bar of a piece with its marks."""
    return views_of(stock_solids(plan, piece))


def finished_views(plan: Plan, piece: str) -> tuple[View, ...]:
    """A piece as the drawing has it, with what is laid on it."""
    return views_of(piece_solids(plan, piece))


def host_pieces(plan: Plan) -> tuple[str, ...]:
    """The pieces that are not laid on another: what the tool is made of in the end."""
    laid = {step.lays for step in plan.recipe.steps if step.lays is not None}
    return tuple(name for name, piece in plan.recipe.pieces.items() if not laid & set(piece.zones))
