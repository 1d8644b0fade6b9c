"""The temperature at which iron of a given carbon content begins to melt."""

from __future__ import annotations

from typing import Final

from coach.quantities.refusal import OutOfRange

HIGHEST_CARBON_SHARE: Final = 2.14  # the most carbon that austenite holds, in %


def check_carbon(carbon_share: float) -> None:
    """Raises OutOfRange outside 0 to 2.14 % of carbon by mass."""
    # Written so that a share which is not a number is refused too.
    if not 0.0 <= carbon_share <= HIGHEST_CARBON_SHARE:
        raise OutOfRange(
            f"Steel has 0 to {HIGHEST_CARBON_SHARE} % of carbon, not {carbon_share:g} %; give it in per "
            "cent, 0.45 for C45."
        )


def solidus_c(carbon_share: float) -> float:
    """The temperature in °C at which iron with `carbon_share` % of carbon by mass begins to melt.

    Straight lines between the invariants of the iron-carbon diagram: 1538 - 482.2 C up to 0.09 %, 1494.6 to
    0.17 %, and 1494.6 - 175.7 (C - 0.17) to 2.14 % at 1148.4 °C; good to SOLIDUS_DOUBT_C. Commercial steel
    burns 80 to 150 °C below it, as phosphorus and sulphur gather at its grain boundaries (from memory).
    Raises OutOfRange outside 0 to 2.14 %.
    Source: the invariants, published iron-carbon phase diagram (confirmed); the straight lines between them,
    judgement.

    >>> round(solidus_c(0.85), 1)
    1375.1
    """
    check_carbon(carbon_share)
    # The two straight lines run through the peritectic plateau between them.
    if carbon_share <= 0.17:
        return max(1538.0 - 482.2 * carbon_share, 1494.6)
    return 1494.6 - 175.7 * (carbon_share - 0.17)
