"""How many blows a heat takes, by what smiths have counted: the figure, and what it is drawn from."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, log, sqrt
from typing import TYPE_CHECKING, Final, NamedTuple

from coach.fire.blows import HAND_HAMMER
from coach.quantities.figure import Figure, Kind, Span

if TYPE_CHECKING:
    from coach.log.kinds.shop_known import ShopKnown

#: A heat is worked for about a minute before it is back in the fire (common practice, no source).
_A_HEAT_MINUTES: Final = 1.0
#: Blows a heat before any was counted: by a hand hammer, at its rate, the share of the time that it strikes
#: (judgement).
BOOK_BLOWS: Final = HAND_HAMMER.blows_per_minute * HAND_HAMMER.striking_share * _A_HEAT_MINUTES
#: Hammers and smiths differ by about this, as a logarithm: nine in ten strike 18 to 96 a heat (judgement).
BLOWS_BOOK_SPREAD: Final = 0.5
#: One heat differs from another of the same work by about this, as a logarithm (judgement).
BLOWS_HEAT_SPREAD: Final = 0.3
#: Nine in ten lie within so many standard deviations (by definition).
_COVERAGE: Final = 1.645


class BlowsAHeat(NamedTuple):
    """How many blows a heat of an operation takes, by what smiths have counted."""

    a_heat: Figure  # so many, with the doubt of their mean
    rests_on: int  # so many heats of this job
    of_shop: int  # so many earlier jobs taught what it began with; 0 where none did

    def of(self, heats: float) -> Span:
        """How many so many heats take, nine times in ten: each differs from another."""
        share = (self.a_heat.doubt or 0.0) / self.a_heat.value
        middle, doubt = (
            log(heats * self.a_heat.value),
            sqrt(share**2 + BLOWS_HEAT_SPREAD**2 / max(heats, 1.0)),
        )
        return Span(exp(middle - _COVERAGE * doubt), exp(middle + _COVERAGE * doubt), Kind.COUNT)


def blows_begun_with(known: Mapping[str, ShopKnown], operation: str) -> BlowsAHeat | None:
    """The same of a job that is begun with what is known of the shop."""
    from coach.log.kinds.shop_known import blows_name

    return weighed([], known.get(blows_name(operation)))


def weighed(own: list[float], known: ShopKnown | None) -> BlowsAHeat | None:
    """The blows that a heat takes by the logarithms of a job's own and by the shop's; None with neither."""
    if not own and known is None:
        return None
    began, spread = log(BOOK_BLOWS), BLOWS_BOOK_SPREAD
    if known is not None:
        began, spread = log(known.value), known.doubt / known.value
    weight = 1.0 / spread**2 + len(own) / BLOWS_HEAT_SPREAD**2
    mean = exp((began / spread**2 + sum(own) / BLOWS_HEAT_SPREAD**2) / weight)
    figure = Figure(mean, Kind.COUNT, mean / sqrt(weight))
    return BlowsAHeat(figure, len(own), known.jobs if known is not None else 0)
