"""What there is to draw of a job and of a plan: piece, stock and finished tool."""

from __future__ import annotations

from collections.abc import Mapping

from coach.drawing.views import DrawingError, Solid, View, plan_view, side_view
from coach.forms import Form, FormError
from coach.ledger.plan import Plan, finished_form
from coach.ledger.working import LEAST_CARBON_SHARE
from coach.metals.grade import grade


def views_of(solids: tuple[Solid, ...]) -> tuple[View, ...]:
    """Plan and side view; none where a size cannot be drawn yet."""
    try:
        return plan_view(solids), side_view(solids)
    except (DrawingError, FormError):
        return ()


def views_now(plan: Plan, piece: str, forms: Mapping[str, Form]) -> tuple[View, ...]:
    """A piece as its zones are; none while one of them cannot be told."""
    stretches = _stretches(plan, piece, forms)
    if not {zone for zones in stretches for zone in zones} <= forms.keys():
        return ()
    return views_of(piece_solids(plan, piece, forms))


def stock_views(plan: Plan, piece: str) -> tuple[View, ...]:
    """The bar of a piece with its marks."""
    return views_of(stock_solids(plan, piece))


def finished_views(plan: Plan, piece: str) -> tuple[View, ...]:
    """A piece as the drawing has it, with what is laid on it."""
    return views_of(piece_solids(plan, piece))


def host_pieces(plan: Plan) -> tuple[str, ...]:
    """The pieces that are left: what the tool is made of in the end."""
    return plan.recipe.finished


def piece_solids(plan: Plan, piece: str, forms: Mapping[str, Form] | None = None) -> tuple[Solid, ...]:
    """The zones of one piece in order.

    The end that a zone is drawn down to is its far one, away from its neighbour: so the first of several
    zones is turned, the finish of its form at the end of the bar; of what opens at its start, as a socket
    does, the last. The ledger knows how much steel is laid on a zone, not how it lies there: it is drawn at
    that far end.

    Args:
        plan: the plan.
        piece: the piece's name.
        forms: the solid of each zone at this moment; None takes the drawing's, and so does a zone that is
            left out. Steel that has a solid of its own among them is not laid on yet.
    """
    recipe = plan.recipe
    stretches = _stretches(plan, piece, forms)
    hard = _is_hard(plan, piece)
    laid = {weld.zones[0]: steel for steel, weld in recipe.welds.items() if not forms or steel not in forms}
    found = []
    for index, zone in ((at, zone) for at, zones in enumerate(stretches) for zone in zones):
        form = (forms or {}).get(zone) or finished_form(recipe, zone)
        share = 0.0
        if not hard and zone in laid and _is_hard(plan, recipe.drawing[laid[zone]].piece):
            share = _laid_share(plan, zone)
        ends = 0 if not form.OPENS_AT_START else len(stretches) - 1
        turned = index == ends and len(stretches) > 1
        whole = recipe.pieces[piece].zones[index]
        solid = Solid(zone, form, hard or share > 0.0, share, turned)
        found.append(solid if zone == whole else solid._replace(whole=whole))
    return tuple(found)


def _stretches(plan: Plan, piece: str, forms: Mapping[str, Form] | None) -> list[tuple[str, ...]]:
    """What lies along a piece: each zone, or what it is split into where that is there now."""
    told = plan.recipe.pieces[piece]

    def now(zone: str) -> tuple[str, ...]:
        if zone not in told.branches or (forms and zone in forms):
            return (zone,)
        return tuple(part for one in told.branches[zone] for part in now(one.zone))

    return [now(zone) for zone in told.zones]


def stock_solids(plan: Plan, piece: str) -> tuple[Solid, ...]:
    """The length of bar marked out for a piece, zone by zone; the borders are the marks."""
    hard = _is_hard(plan, piece)
    return tuple(Solid(zone, plan.bar_of(zone), hard) for zone in plan.recipe.pieces[piece].zones)


def _is_hard(plan: Plan, piece: str) -> bool:
    """Whether a piece has the carbon to harden."""
    carbon = grade(plan.recipe.pieces[piece].metal).carbon_share
    return carbon is not None and carbon >= LEAST_CARBON_SHARE


def _laid_share(plan: Plan, zone: str) -> float:
    """The laid steel's share of a zone as it leaves the weld; later losses are taken as shared by volume."""
    for stage in plan.stages[zone]:
        if stage.step.lays is not None and stage.laid_mm3:
            return stage.laid_mm3 / (stage.before_mm3 + stage.laid_mm3)
    return 0.0
