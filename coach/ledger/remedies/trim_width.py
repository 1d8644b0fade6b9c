"""Trim the width: what has run too wide is sawn, filed or ground down to its drawn size."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.verdict import SizeState
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import as_words, mm, run_on, say

#: How well a width is trimmed, and how well what comes off is known (common practice, no source).
_SCATTER_MM = 0.3
_REMOVED_DOUBT_SHARE = 0.1


class TrimWidth(Remedy):
    """Length does not help a piece that is too wide; the stone does."""

    NAME = "trim the width"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone with a width over its limits, at either end."""
        for zone in situation.found.zones.values():
            state = situation.now.zones[zone.zone]
            over = [
                size
                for size in zone.sizes
                if size.state is SizeState.OVER
                and "width" in size.dimension
                and "hole" not in size.dimension
                and size.dimension in state.shape.dimensions
                and (size.zone, size.dimension) not in situation.unmeasured
            ]
            if over and state.has_form:
                yield _idea(situation, over)


def _idea(situation: Situation, over: list[FinishedSize]) -> Idea:
    zone = over[0].zone
    form = situation.left(over[0]).form(zone)
    wanted = {size.dimension: size.wanted.limits.nominal for size in over}
    removed = form.volume_mm3() - form.with_sizes(wanted).volume_mm3()
    how = (
        "grind it off and keep it cool"
        if situation.is_hard_at(zone)
        else "saw, file or grind it off, evenly from both edges"
    )
    sizes = (say("{} to {:aim}", size.label, size.wanted) for size in over)
    told = ((size, situation.told.get(size.name, size)) for size in over)
    told_mm = (as_told if as_told.state is SizeState.OVER else size for size, as_told in told)
    off = (mm(size.expected.value - size.wanted.limits.nominal) for size in told_mm)
    trimmed = Idea(
        about=zone,
        title=say("Trim the {}", run_on(sizes, ", ")),
        changes=say(
            "{} off it: {}. Its other sizes stay.", run_on((say("{}", one) for one in off), ", "), how
        ),
        amendment=Amendment(
            moved=(Moved(zone, -removed, _REMOVED_DOUBT_SHARE * removed),),
            regained=tuple(Regained(zone, name, size_mm, _SCATTER_MM) for name, size_mm in wanted.items()),
        ),
        caution=as_words("wheels and dust: eyes and lungs covered, the guard in its place"),
    )
    return trimmed.after_measuring(situation.unread(over))
