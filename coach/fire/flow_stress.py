"""How hard hot steel resists being forged.

The law is for plain carbon steel. Wrought iron, with its threads of slag, is not covered by it.
"""

from __future__ import annotations

import math
from typing import Final

from coach.quantities.checks import check_temperature
from coach.quantities.refusal import OutOfRange

#: Between which values the law is published (from memory).
MOST_CARBON_SHARE: Final = 1.2  # per cent by mass
COLDEST_C: Final = 750.0
HOTTEST_C: Final = 1200.0
GREATEST_STRAIN: Final = 0.5
SLOWEST_PER_S: Final = 30.0
FASTEST_PER_S: Final = 200.0

_MPA_IN_KGF_MM2: Final = 9.80665


def misaka_mean_stress_mpa(
    carbon_share: float, temperature_c: float, strain: float, rate_per_s: float
) -> float:
    """The flow stress in MPa, as a mean over the squeeze from nothing to `strain`.

    exp(0.126 - 1.75 C + 0.594 C² + (2851 + 2968 C - 1120 C²) / T) ε^0.21 ε̇^0.13 in kgf/mm², with T in K,
    times 9.80665. It is a mean: do not average it again. ε is ln(h0/h1), ε̇ its rate in 1/s.
    Published for carbon up to 1.2 %, 750 to 1200 °C, ε up to 0.5 and ε̇ from 30 to 200 /s (range from
    memory); raises OutOfRange elsewhere.
    Source: Y. Misaka and T. Yoshimoto, Journal of the Japan Society for Technology of Plasticity 8 (1967)
    (confirmed second-hand, two public code listings).

    >>> round(misaka_mean_stress_mpa(0.2, 1100, 0.22314, 100), 2)
    126.78
    """
    _check(carbon_share, temperature_c, strain, rate_per_s)
    c = carbon_share
    hot = (2851.0 + 2968.0 * c - 1120.0 * c**2) / (temperature_c + 273.15)
    kgf_mm2 = math.exp(0.126 - 1.75 * c + 0.594 * c**2 + hot) * strain**0.21 * rate_per_s**0.13
    return float(kgf_mm2 * _MPA_IN_KGF_MM2)


def _check(carbon_share: float, temperature_c: float, strain: float, rate_per_s: float) -> None:
    published = "The flow stress of hot steel is published"
    # Written so that what is not a number is refused too.
    if not 0.0 <= carbon_share <= MOST_CARBON_SHARE:
        raise OutOfRange(
            f"{published} for 0 to {MOST_CARBON_SHARE:g} % of carbon, not for {carbon_share:g} %; "
            "count the blows of a first heat instead."
        )
    sentence = f"{published} from {{}}, not at {{}}; give a forging heat between them."
    check_temperature(temperature_c, COLDEST_C, HOTTEST_C, sentence)
    if not 0.0 < strain <= GREATEST_STRAIN:
        raise OutOfRange(
            f"{published} for squeezes that bring a height down by up to {math.exp(GREATEST_STRAIN):.2f} "
            f"times, a strain of {GREATEST_STRAIN:g}, not for a strain of {strain:g}; take smaller squeezes."
        )
    if not SLOWEST_PER_S <= rate_per_s <= FASTEST_PER_S:
        raise OutOfRange(
            f"{published} for rates of {SLOWEST_PER_S:g} to {FASTEST_PER_S:g} per second, not for "
            f"{rate_per_s:g}; give the rate of one blow."
        )
