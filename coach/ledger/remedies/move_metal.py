"""Move metal: a zone that is short takes from a neighbour that has it, while no shoulder is set between."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.verdict import Verdict
from coach.operations.measures import MARK
from coach.quantities import mm, say

#: A boundary that is moved by eye is less sure than one that was marked (common practice, no source).
_DOUBT_SHARE = 0.15


#: A mark that is nearer to its place than this is not made anew (judgement).
_NEAR_MM = 1.0


class MoveMetal(Remedy):
    """The boundary between two zones of one bar is put somewhere else."""

    NAME = "move metal"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every short zone and each neighbour of it that has enough to give."""
        recipe = situation.plan.recipe
        yield from _marks_anew(situation)
        for short, lacking in situation.short():
            zone = short.zone
            zones = recipe.piece_of(zone).zones
            at = zones.index(zone)
            for other in (zones[i] for i in (at - 1, at + 1) if 0 <= i < len(zones)):
                giver = situation.found.zones.get(other)
                if situation.has_shoulder(zone) or situation.has_shoulder(other):
                    continue
                if giver is None or not giver.spares:
                    continue
                spare = giver.spares[0]
                most = spare.spare.at_least.value * situation.slope_mm3_mm(other, spare.dimension)
                amount = min(lacking, most)
                along = amount / situation.now.form(zone).end_area_mm2("finish")
                if along < 0.25:  # no mark is moved by so little (judgement)
                    continue
                doubt = _DOUBT_SHARE * amount
                yield Idea(
                    about=f"{other}.{zone}",
                    title=say(
                        "Move the mark between {} and {} {} into the {}", zone, other, mm(along), other
                    ),
                    changes=say("The {} gains {} of bar, the {} gives it.", zone, mm(along), other),
                    amendment=Amendment(moved=(Moved(zone, amount, doubt), Moved(other, -amount, doubt))),
                )


def _marks_anew(situation: Situation) -> Iterator[Idea]:
    """One idea for every mark between two zones that was read out of its place at the mark-out."""
    course = situation.course
    outcomes = course.outcomes if course is not None else ()
    for outcome in outcomes:
        reading, surprise = outcome.mark.reading, outcome.surprise
        if reading.dimension != MARK or outcome.verdict is not Verdict.OUT or outcome.questioned:
            continue
        if surprise is None or outcome.limits is None:
            continue
        zones = situation.plan.recipe.piece_of(reading.zone).zones
        at = zones.index(reading.zone) + 1
        place_mm = outcome.limits.nominal
        off_mm = place_mm - surprise.cold.size_mm
        if at == len(zones) or abs(off_mm) < _NEAR_MM:
            continue
        zone, other = reading.zone, zones[at]
        amount = off_mm * situation.now.form(zone).end_area_mm2("finish")
        doubt = situation.plan.recipe.mark_doubt_mm * abs(amount / off_mm)
        yield Idea(
            about=f"{zone}.{MARK}",
            title=say("Make the mark between {} and {} anew, at {}", zone, other, mm(place_mm)),
            changes=say("The wrong one is filed out or struck through; the other marks stay."),
            amendment=Amendment(
                moved=(Moved(zone, amount, doubt), Moved(other, -amount, doubt)),
                regained=(Regained(zone, MARK, place_mm, doubt),),
            ),
        )
