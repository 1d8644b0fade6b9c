"""Give to the neighbour: the end of a zone that is too long is marked off to one that is not forged yet."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import NOTHING, as_words, mm, say

#: No more than this share of a zone goes to its neighbour: beyond, it is another zone (judgement).
_MOST_SHARE = 0.5


class GiveToNeighbour(Remedy):
    """A mark costs nothing: what is too long for one zone is metal for the next."""

    NAME = "give to the neighbour"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone that stays too long and each neighbour on its bar that is still ahead."""
        if situation.course is None:
            return
        for size in situation.stays_too_long(settled=True):
            zones = situation.plan.recipe.piece_of(size.zone).zones
            if size.zone not in zones:  # a branch, which shares no mark with another zone
                continue
            at = zones.index(size.zone)
            for other in (zones[i] for i in (at - 1, at + 1) if 0 <= i < len(zones)):
                if not situation.is_begun(other):
                    yield from _given(situation, size, other, at_finish=zones.index(other) > at)


def _given(situation: Situation, size: FinishedSize, other: str, *, at_finish: bool) -> Iterator[Idea]:
    zone, form = size.zone, situation.left(size).form(size.zone)
    free = situation.now.zones[zone].free
    length_mm, aim_mm = size.expected.value, size.wanted.limits.nominal
    over_mm = length_mm - aim_mm
    if over_mm > _MOST_SHARE * length_mm:
        return
    doubt_mm = situation.plan.recipe.mark_doubt_mm
    at_mm = form.length_mm * (1.0 - 0.5 * over_mm / length_mm if at_finish else 0.5 * over_mm / length_mm)
    area_mm2 = form.section(at_mm).area_mm2
    volume, doubt = over_mm * area_mm2, doubt_mm * area_mm2
    along = over_mm * area_mm2 / situation.bar_area_mm2(other)
    thinner = area_mm2 < situation.bar_area_mm2(other)
    yield Idea(
        about=f"{zone}.{other}",
        title=say("Mark the {} off at {}, the rest is {}", zone, mm(aim_mm), other),
        changes=say(
            "{} of it, as forged, go to the {}: as much metal as {} of the bar.",
            mm(over_mm),
            other,
            mm(along),
        ),
        amendment=Amendment(
            moved=(Moved(zone, -volume, doubt), Moved(other, volume, doubt)),
            # A length that is settled is followed by the section: the work ahead goes by that still.
            regained=(Regained(zone, "length", aim_mm, doubt_mm, under_way=free != "length"),),
        ),
        caution=as_words("it is thinner there than the bar: that end is drawn out least")
        if thinner
        else NOTHING,
    )
