"""How a recipe stands before the first heat: what is to be marked out, its chance and its verdict."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from coach.bench.in_file import findings_in_file
from coach.bench.skin import SteelSkin, planned_skins, short_skin
from coach.bench.verdicts import Why, beside_will_pass, how_it_stands
from coach.ledger.forecast import Forecast, forecast
from coach.ledger.plan import BarOfZone, Plan, PlannedPiece
from coach.ledger.tempered import NOT_TAUGHT
from coach.ledger.verdict import PlanState
from coach.ledger.weigh import Finding, weigh
from coach.ledger.workpiece import Workpiece, at_stock
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities.figure import mm

if TYPE_CHECKING:
    from coach.bench.begun_with import Known

#: A mark cannot be set finer than this: less extra bar is not worth telling (judgement).
_WORTH_MARKING_MM = 0.25
_LEAST_EXTRA_MM = 0.5


class Outlook(NamedTuple):
    """A plan with what can be expected of it."""

    start: Workpiece  # the marked bar
    found: Forecast
    pieces: tuple[PlannedPiece, ...]  # with what is to be marked out beyond the plan
    sizes: tuple[FinishedSize, ...]  # of the drawing, as they can be expected
    skins: tuple[SteelSkin, ...]
    findings: tuple[Finding, ...]  # what the metal cannot do
    chance: float  # that the whole drawing comes out
    verdict: PlanState
    reason: Why  # why it stands so: the size that decides, or words


def outlook(plan: Plan, known: Sequence[Known] = ()) -> Outlook:
    """A plan, and the way forward from its marked bar; `known` is what it is begun with of the shop."""
    recipe, start, own = plan.recipe, at_stock(plan, told_apart=True), NOT_TAUGHT
    if known:
        from coach.bench.begun_with import begun_by
        from coach.bench.own_tempers import curves_begun_with

        start, own = begun_by(start, known), curves_begun_with(known)
    found = forecast(plan, None, start, 1)
    findings, skins, sizes = (
        findings_in_file(recipe, weigh(plan, own)),
        planned_skins(plan),
        found.sizes(recipe),
    )
    if known:
        from coach.bench.by_own_shop import by_own_shop

        findings = by_own_shop(findings, sizes, known)
    so_far = how_it_stands(found, found.trouble, findings, (), (short_skin(skins),), sizes)
    stands = beside_will_pass(*so_far, found.will_pass)
    pieces = tuple(_piece(plan, piece, found) for piece in plan.pieces.values())
    return Outlook(start, found, pieces, sizes, skins, findings, *stands)


def _piece(plan: Plan, piece: PlannedPiece, found: Forecast) -> PlannedPiece:
    """A piece with what is to be marked out beyond the plan."""
    return piece._replace(zones=tuple(_zone(plan, zone, found) for zone in piece.zones))


def _zone(plan: Plan, zone: BarOfZone, found: Forecast) -> BarOfZone:
    # What is split into others is marked out for the branch that lacks the most.
    leaves = plan.recipe.piece_of(zone.zone).leaves_of(zone.zone)
    lacks = (found.zones[one].extra_mm3 / plan.start_mm3[one] for one in leaves if one in found.zones)
    more = max(lacks, default=0.0) * zone.length.value
    return zone._replace(extra=mm(max(more, _LEAST_EXTRA_MM))) if more >= _WORTH_MARKING_MM else zone
