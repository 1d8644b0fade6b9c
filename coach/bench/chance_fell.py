"""How far a chance fell, in words."""

from __future__ import annotations

from typing import Final

from coach.quantities.figure import share
from coach.quantities.words import Words, say

#: A fall of less cannot be seen in two chances of whole per cents: over 99 % and 99 % may be the same (our
#: choice).
_SEEN: Final = 0.02


def chance_fell(before: float, after: float) -> Words:
    """`from 97 % to 82 %`; of what no two whole per cents show that it is less than can be seen."""
    if before - after < _SEEN:
        return say("down by less than 2 in 100, to {:chance}", share(after))
    return say("from {:chance} to {:chance}", share(before), share(after))
