"""Less steel: what was lost of it since it was laid on is gone, and the tool wears out so much sooner."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from coach.ledger.amendment import REMAINS, Amendment, NewLimits
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.quantities import COVERAGE, Limits, as_words, mm, say

#: Less steel than this share of what is to remain is no hard face or edge any more (judgement).
_LEAST_SHARE = 0.5


class LessSteel(Remedy):
    """The drawing gives way, for what is to remain of a steel."""

    NAME = "less steel"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every steel of which too little will be left."""
        for short in situation.short_steels:
            left_mm, remains_mm = short.left.value, short.remains.value
            if left_mm < _LEAST_SHARE * remains_mm:
                continue
            # As little as that may be, by how well it is known, is let go with it.
            least_mm = max(left_mm - COVERAGE * (short.left.doubt or 0.0), _LEAST_SHARE * remains_mm)
            yield Idea(
                about=short.steel,
                title=say("Be content with {} of hard steel on the {}", short.left, short.steel),
                changes=say("{:hair} less than is to remain; nothing is put on.", mm(remains_mm - left_mm)),
                amendment=Amendment(
                    limits=(NewLimits(short.steel, REMAINS, Limits(left_mm, least_mm, inf, True)),)
                ),
                price_mm=remains_mm - left_mm,
                gives=say("{:hair} less hard steel", mm(remains_mm - left_mm)),
                caution=as_words("it is ground through so much sooner: take no more off it than must be"),
                outside=True,
            )
