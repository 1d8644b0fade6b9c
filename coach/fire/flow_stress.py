"""How hard hot steel resists being forged.

Both laws are for plain carbon steel. Wrought iron, with its threads of slag, is covered by neither.
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from coach.quantities.refusal import Refusal

#: The laws scatter about measured steels by plus or minus this share, 0.15 to 0.25 (from memory).
STRESS_DOUBT_SHARE: Final = 0.2

_MPA_IN_KGF_MM2: Final = 9.80665
_CONTINUED_TO_PER_S: Final = (0.1, 2000.0)  # judgement


class NotCovered(Refusal):
    """A steel or a blow for which no flow stress is published; its text is one plain sentence."""


class Reach(NamedTuple):
    """Between which values a law of flow stress is published (from memory)."""

    law: str
    least_carbon: float  # per cent by mass
    most_carbon: float
    coldest_c: float
    hottest_c: float
    greatest_strain: float
    slowest_per_s: float
    fastest_per_s: float


MISAKA: Final = Reach("Misaka and Yoshimoto", 0.0, 1.2, 750.0, 1200.0, 0.5, 30.0, 200.0)
SHIDA: Final = Reach("Shida", 0.07, 1.2, 700.0, 1200.0, 0.7, 0.1, 100.0)


def misaka_mean_stress_mpa(
    carbon_share: float,
    temperature_c: float,
    strain: float,
    rate_per_s: float,
    *,
    beyond_rates: bool = False,
) -> float:
    """The flow stress in MPa, as a mean over the squeeze from nothing to `strain`.

    exp(0.126 - 1.75 C + 0.594 C² + (2851 + 2968 C - 1120 C²) / T) ε^0.21 ε̇^0.13 in kgf/mm², with T in K,
    times 9.80665. It is a mean: do not average it again. ε is ln(h0/h1), ε̇ its rate in 1/s.
    Published for carbon up to 1.2 %, 750 to 1200 °C, ε up to 0.5 and ε̇ from 30 to 200 /s (range from
    memory); raises NotCovered elsewhere. With `beyond_rates` the law is continued to rates from 0.1 to
    2000 /s, past what is published: for comparing it with others.
    Source: Y. Misaka and T. Yoshimoto, Journal of the Japan Society for Technology of Plasticity 8 (1967)
    (confirmed second-hand, two public code listings).

    >>> round(misaka_mean_stress_mpa(0.2, 1100, 0.22314, 100), 2)
    126.78
    """
    slowest_per_s, fastest_per_s = _CONTINUED_TO_PER_S
    continued = MISAKA._replace(slowest_per_s=slowest_per_s, fastest_per_s=fastest_per_s)
    _check(continued if beyond_rates else MISAKA, carbon_share, temperature_c, strain, rate_per_s)
    c = carbon_share
    hot = (2851.0 + 2968.0 * c - 1120.0 * c**2) / (temperature_c + 273.15)
    kgf_mm2 = math.exp(0.126 - 1.75 * c + 0.594 * c**2 + hot) * strain**0.21 * rate_per_s**0.13
    return float(kgf_mm2 * _MPA_IN_KGF_MM2)


def shida_stress_mpa(carbon_share: float, temperature_c: float, strain: float, rate_per_s: float) -> float:
    """The flow stress in MPa at the end of a squeeze to `strain`, at that strain and not its mean.

    σf f (ε̇/10)^m in kgf/mm², times 9.80665, with f = 1.3 (ε/0.2)^n - 0.3 (ε/0.2) and n = 0.41 - 0.07 C; σf
    and m differ above and below the temperature at which ferrite forms, 1000 t_d K, with t_d = 0.95 (C +
    0.41) / (C + 0.32). The printed constants meet there only to within 1 %. No factor 2/√3: that belongs to
    the rolling of wide strip. ε is ln(h0/h1), ε̇ its rate in 1/s.
    Published for carbon from 0.07 to 1.2 %, 700 to 1200 °C, ε up to 0.7 and ε̇ from 0.1 to 100 /s (range
    from memory); raises NotCovered elsewhere.
    Source: S. Shida, Journal of the Japan Society for Technology of Plasticity, 1969 (confirmed second-hand,
    one public code listing).

    >>> round(shida_stress_mpa(0.2, 1000, 0.2, 10), 2)
    133.94
    """
    _check(SHIDA, carbon_share, temperature_c, strain, rate_per_s)
    n = _hardening(carbon_share)
    hardened = float(1.3 * (strain / 0.2) ** n - 0.3 * (strain / 0.2))
    return _shida_base_mpa(carbon_share, temperature_c, rate_per_s) * hardened


def shida_mean_stress_mpa(
    carbon_share: float, temperature_c: float, strain: float, rate_per_s: float
) -> float:
    """The flow stress in MPa by Shida's law, as a mean over the squeeze from nothing to `strain`.

    `shida_stress_mpa` with f replaced by its mean over the strain, 1.3 / (n+1) (ε/0.2)^n - 0.15 (ε/0.2);
    the mean is derived here. Range, errors and source as there.

    >>> round(shida_mean_stress_mpa(0.2, 1000, 0.2, 10), 2)
    104.64
    """
    _check(SHIDA, carbon_share, temperature_c, strain, rate_per_s)
    n = _hardening(carbon_share)
    hardened = float(1.3 / (n + 1.0) * (strain / 0.2) ** n - 0.15 * (strain / 0.2))
    return _shida_base_mpa(carbon_share, temperature_c, rate_per_s) * hardened


def _hardening(carbon_share: float) -> float:
    return 0.41 - 0.07 * carbon_share


def _shida_base_mpa(carbon_share: float, temperature_c: float, rate_per_s: float) -> float:
    """Shida's law but for the part that depends on the strain."""
    c, t = carbon_share, (temperature_c + 273.15) / 1000.0
    ferrite_forms = 0.95 * (c + 0.41) / (c + 0.32)
    if t >= ferrite_forms:
        kgf_mm2 = 0.28 * math.exp(5.0 / t - 0.01 / (c + 0.05))
        m = (-0.019 * c + 0.126) * t + (0.075 * c - 0.05)
    else:
        part = (t - 0.95 * (c + 0.49) / (c + 0.42)) ** 2
        softer = 30.0 * (c + 0.9) * part + (c + 0.06) / (c + 0.09)
        kgf_mm2 = 0.28 * softer * math.exp(5.0 / ferrite_forms - 0.01 / (c + 0.05))
        m = (0.081 * c - 0.154) * t - 0.019 * c + 0.207 + 0.027 / (c + 0.32)
    return float(kgf_mm2 * (rate_per_s / 10.0) ** m * _MPA_IN_KGF_MM2)


def _check(reach: Reach, carbon_share: float, temperature_c: float, strain: float, rate_per_s: float) -> None:
    # Written so that what is not a number is refused too.
    if not reach.least_carbon <= carbon_share <= reach.most_carbon:
        raise NotCovered(
            f"The flow stress of {reach.law} is published for {reach.least_carbon:g} to "
            f"{reach.most_carbon:g} % of carbon, not for {carbon_share:g} %; count the blows of a first "
            "heat instead."
        )
    if not reach.coldest_c <= temperature_c <= reach.hottest_c:
        raise NotCovered(
            f"The flow stress of {reach.law} is published from {reach.coldest_c:.0f} to "
            f"{reach.hottest_c:.0f} °C, not at {temperature_c:.0f} °C; give a forging heat between them."
        )
    if not 0.0 < strain <= reach.greatest_strain:
        greatest = math.exp(reach.greatest_strain)
        raise NotCovered(
            f"The flow stress of {reach.law} is published for squeezes that bring a height down by up to "
            f"{greatest:.2f} times, a strain of {reach.greatest_strain:g}, not for a strain of {strain:g}; "
            "take smaller squeezes."
        )
    if not reach.slowest_per_s <= rate_per_s <= reach.fastest_per_s:
        raise NotCovered(
            f"The flow stress of {reach.law} is published for rates of {reach.slowest_per_s:g} to "
            f"{reach.fastest_per_s:g} per second, not for {rate_per_s:g}; give the rate of one blow."
        )
