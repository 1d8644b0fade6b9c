"""How far a chance fell, in words, and where that of a job fell most."""

from __future__ import annotations

from itertools import pairwise
from typing import Final, NamedTuple

from coach.bench.looking_back import MomentOfSpare, SpareGone
from coach.quantities.figure import share
from coach.quantities.words import Words, say

#: A fall of less cannot be seen in two chances of whole per cents: over 99 % and 99 % may be the same (our
#: choice).
_SEEN: Final = 0.02
#: A chance that is reckoned to have fallen by less than this stands as it did (judgement).
_STANDS: Final = 0.01


def chance_fell(before: float, after: float) -> Words:
    """`from 97 % to 82 %`; of what no two whole per cents show that it is less than can be seen."""
    if before - after < _SEEN:
        return say("down by less than 2 in 100, to {:chance}", share(after))
    return say("from {:chance} to {:chance}", share(before), share(after))


class ChanceGone(NamedTuple):
    """Where the chance that was told of a job fell most."""

    before: MomentOfSpare
    after: MomentOfSpare

    @property
    def fell(self) -> float:
        """By how much."""
        return self.before.chance - self.after.chance


def most_chance_gone(gone: SpareGone) -> ChanceGone | None:
    """Where the chance that was told fell most; None where it fell nowhere.

    Another drawing costs none. Nor does a moment from which the same is told otherwise: once nothing more is
    shaped the sizes are told one by one, those that nobody measured among them, and no step took that.
    """
    moments = list({point.entry: point for point in gone.points}.values())
    told = (ChanceGone(*pair) for pair in pairwise(moments) if pair[1].entry not in gone.redrawn)
    took = (one for one in told if one.before.reckoned - one.after.reckoned >= _STANDS)
    most = max(took, default=None, key=lambda one: one.fell)
    return most if most is not None and most.fell > 0.0 else None
