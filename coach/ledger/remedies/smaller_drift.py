"""A smaller drift: a hole that was opened too far is closed on a drift of the size drawn."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import said
from coach.ledger.amendment import Amendment, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.verdict import SizeState
from coach.quantities import Wanted, as_words, run_on, say

#: How well a hole takes the size of the drift that it is closed on (common practice, no source).
_SCATTER_MM = 0.3
#: Beyond this share a hole folds its mouth in before it closes (common practice, no source).
_FAR_SHARE = 0.15


class SmallerDrift(Remedy):
    """The cheeks are hammered in on the drift, from the sides that have room."""

    NAME = "close on a smaller drift"
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone whose hole is over its limits, while it can still be forged."""
        if situation.is_hard:
            return
        by_zone: dict[str, dict[str, Wanted]] = {}
        far = False
        for size in situation.stuck():
            if size.state is SizeState.OVER and "hole" in size.dimension:
                by_zone.setdefault(size.zone, {})[size.dimension] = size.wanted
                far = far or size.expected.value > (1.0 + _FAR_SHARE) * size.wanted.limits.nominal
        for zone, wanted in by_zone.items():
            state = situation.now.zones[zone]
            if not state.has_form or not wanted.keys() <= {*state.shape.dimensions} - {state.free}:
                continue
            sizes = (say("{} {:aim}", said(name), size) for name, size in wanted.items())
            yield Idea(
                about=zone,
                title=say("Close the {} on a smaller drift, to {}", zone, run_on(sizes, ", ")),
                changes=say(
                    "Hot, with the drift standing in it, the cheeks are hammered in; the {} follows.",
                    said(state.free),
                ),
                amendment=Amendment(
                    regained=tuple(
                        Regained(zone, name, size.limits.nominal, _SCATTER_MM)
                        for name, size in wanted.items()
                    )
                ),
                heats=2 if far else 1,
                caution=as_words(
                    "at light yellow, a little from each side in turn: a mouth that folds in is a crack. "
                    "Stand clear of the line of the drift, and knock it out before the heat is gone"
                ),
            )
