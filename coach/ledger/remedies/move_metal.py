"""Move metal: a zone that is short takes from a neighbour that has it, while no shoulder is set between."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.bar_left import bar_left_mm
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.remedies.lies_longer import lies_longer
from coach.operations.measures import MARK
from coach.quantities import mm, say
from coach.recipe.one_bar import next_on_bar

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
            if zone not in zones:  # a branch, which shares no mark with another zone
                continue
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
                along = amount / situation.bar_area_mm2(zone)
                if along < 0.25:  # no mark is moved by so little (judgement)
                    continue
                doubt = _DOUBT_SHARE * amount
                is_first = at < zones.index(other)
                mark = (
                    situation.marked_anew(zone, along) if is_first else situation.marked_anew(other, -along)
                )
                yield Idea(
                    about=f"{other}.{zone}",
                    title=say(
                        "Move the mark between {} and {} {} into the {}", zone, other, mm(along), other
                    ),
                    changes=say("The {} gains {} of bar, the {} gives it.", zone, mm(along), other),
                    amendment=Amendment(
                        moved=(Moved(zone, amount, doubt), Moved(other, -amount, doubt)),
                        regained=(mark, *lies_longer(situation, zone, along)),
                    ),
                )


def _marks_anew(situation: Situation) -> Iterator[Idea]:
    """One idea for every mark that was read out of its place, while the bar is not shaped on either side."""
    for outcome in situation.wrong_marks:
        zone, surprise, limits = outcome.mark.reading.zone, outcome.surprise, outcome.limits
        if surprise is None or limits is None:
            continue
        piece = situation.plan.recipe.piece_of(zone)
        other = next(iter(piece.zones[piece.zones.index(zone) + 1 :]), None)
        other = other or next_on_bar(situation.plan.recipe, piece.name)
        if situation.is_begun(zone) or (other is not None and situation.is_begun(other)):
            continue
        place_mm = limits.nominal
        off_mm = place_mm - surprise.cold.size_mm
        left_mm = bar_left_mm(situation, piece.name)
        no_more = left_mm is not None and left_mm < off_mm
        if abs(off_mm) < _NEAR_MM or (other is None and no_more):
            continue
        amount = off_mm * situation.bar_area_mm2(zone)
        doubt = situation.plan.recipe.mark_doubt_mm * abs(amount / off_mm)
        moved: tuple[Moved, ...] = (Moved(zone, amount, doubt),)
        where = say("Make the mark at the end of the {} anew, at {}", zone, mm(place_mm))
        if other is not None:
            moved += (Moved(other, -amount, doubt),)
            where = say("Make the mark between {} and {} anew, at {}", zone, other, mm(place_mm))
        yield Idea(
            about=f"{zone}.{MARK}",
            title=where,
            changes=say("The wrong one is filed out or struck through; the other marks stay."),
            amendment=Amendment(moved=moved, regained=(Regained(zone, MARK, place_mm, doubt),)),
        )
