"""Bars that are not marked yet, once the plan is another: they will be marked as that has them."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import accumulate, pairwise

from coach.ledger.belief import Change
from coach.ledger.plan import Plan
from coach.ledger.workpiece import Workpiece, at_stock, volume_name
from coach.recipe.model import Step


def marked_anew(now: Workpiece, plan: Plan, begun: Iterable[Step], marked: Collection[str]) -> Workpiece:
    """The workpiece where marks that are not made yet will be made as the plan has them.

    Args:
        now: the workpiece before the step in hand, by another plan of the same pieces.
        plan: the plan that is followed from here on.
        begun: the steps that are done, and the one in hand once it has worked the metal.
        marked: the zones whose marks were read.

    A zone's volume grows or shrinks with its doubt and with what it hangs on: the section of its bar.
    """
    touched = {zone for step in begun for zone in step.worked}
    fresh = at_stock(plan)
    changes: dict[str, Change] = {}
    for piece in plan.recipe.pieces.values():
        if touched.isdisjoint(piece.every_zone):
            changes |= _of_bar(now, fresh, piece.zones, marked)
    return now._replace(belief=now.belief.predict(changes)) if changes else now


def _of_bar(
    now: Workpiece, fresh: Workpiece, zones: Collection[str], fixed: Collection[str]
) -> dict[str, Change]:
    """The volumes along one bar: a mark that was read stays, the others are made where they will be."""
    are = _ends(now, zones)
    ends = [
        is_ if zone in fixed else will
        for zone, is_, will in zip(zones, are, _ends(fresh, zones), strict=True)
    ]
    found = {}
    for zone, (start, end), (before, after) in zip(
        zones, pairwise([0.0, *ends]), pairwise([0.0, *are]), strict=True
    ):
        if end <= start:  # a mark that was read lies past where the next one will be: it is told as it was
            return {}
        share = (end - start) / (after - before)
        name = volume_name(zone)
        found[name] = Change(share * now.belief.mean(name), {name: share})
    return found


def _ends(workpiece: Workpiece, zones: Iterable[str]) -> list[float]:
    """Where each zone ends on its bar, mm from the bar's end."""
    return list(accumulate(workpiece.size(zone, "length").value for zone in zones))
