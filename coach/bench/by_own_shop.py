"""What is found of a plan by the published figures, where this shop is known to take other ones."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from coach.ledger.verdict import SizeState
from coach.ledger.weigh import Cannot, Finding
from coach.ledger.zone_forecast import FinishedSize
from coach.log.body import Body
from coach.log.kinds.shop_known import ShopKnown


def by_own_shop(
    findings: Sequence[Finding], sizes: Iterable[FinishedSize], known: Iterable[Body]
) -> tuple[Finding, ...]:
    """The findings, less those of zones that come out as drawn by what is known of the shop.

    What a plan's steps leave is reckoned by the recipe's fire; `sizes` go by the shop's own.
    """
    if not any(isinstance(one, ShopKnown) for one in known):
        return tuple(findings)
    comes: dict[str, bool] = {}
    for size in sizes:
        comes[size.zone] = comes.get(size.zone, True) and size.state is SizeState.GOOD
    return tuple(
        one for one in findings if not (one.what is Cannot.MAKE_DRAWING and comes.get(one.zone, False))
    )
