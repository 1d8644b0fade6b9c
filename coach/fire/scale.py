"""How much metal a fire takes off a face as scale.

The law is that of clean iron in free air, so it is an upper bound; a reducing coal fire scales less, by a
factor that a smith learns from weighings. Its constant gives the square of the scale's thickness in cm²/s:
read as a gain of mass in kg²/(m⁴ s) it would lose a twelfth of the metal it does.
"""

from __future__ import annotations

import math
from typing import Final

from coach.quantities.figure import celsius
from coach.quantities.refusal import OutOfRange

#: The law is published from here to 1250 °C (from memory).
LOWEST_C: Final = 700.0
#: Up to here it is continued for welding heats, in °C: iron scale melts at about 1370 °C and runs off
#: (from memory), after which no parabola holds. Continuing it is judgement.
CONTINUED_TO_C: Final = 1370.0

#: The share of the loss in free air that a reducing coal fire takes; judgement, learned from weighings.
FIRE_FACTOR: Final = 0.3
#: One standard deviation of the fire factor before anything was weighed; judgement.
FIRE_FACTOR_DOUBT: Final = 0.15

#: Metal lost from a face for each mm of scale on it: scale of 5.7 g/cm³ with 77.7 % of iron in it, over
#: 7.86 g/cm³ of iron (from memory).
METAL_IN_SCALE: Final = 0.564

#: CODATA 2018, exact since the units of 2019; absolute zero (by definition).
_GAS_CONSTANT_J_MOL_K: Final = 8.314462618
_COLDEST_C: Final = -273.15


def fire_loss_mm(temperature_c: float, minutes: float, fire_factor: float = FIRE_FACTOR) -> float:
    """Metal in mm that one clean face loses in some minutes at a temperature in the fire.

    0.564 times the scale's thickness sqrt(k t) times the fire factor, with k = 6.1 exp(-169450 / (R T)) in
    cm²/s, T in K; the doubt of the answer is to the answer as FIRE_FACTOR_DOUBT to FIRE_FACTOR until a
    weighing says better. Colder than 700 °C counts as no loss, which leaves out less than 0.007 mm in five
    minutes (judgement: nothing is published for it here). Published up to 1250 °C for iron in air. Welding
    heats are hotter, so the same law is continued to 1370 °C, which is judgement: it keeps a welding heat
    dearer than a forging heat.
    Raises OutOfRange above 1370 °C and for a time or a factor below 0.
    Sources: of the thickness, J. Païdassi, 1958, as quoted in R. Y. Chen and W. Y. D. Yuen, Oxidation of
    Metals 59 (2003), 433 (from memory); of the share of metal, METAL_IN_SCALE (from memory); of the factor,
    judgement.

    >>> round(fire_loss_mm(1100, 3), 3), round(fire_loss_mm(1300, 4), 3)
    (0.034, 0.1)
    """
    if not 0.0 <= fire_factor < math.inf:
        raise OutOfRange(f"A fire factor is 0 or more, 0.3 in a usual coal fire, not {fire_factor:g}.")
    # Written so that a temperature which is not a number is refused too.
    if not _COLDEST_C < temperature_c <= CONTINUED_TO_C:
        raise OutOfRange(
            "The loss to scale can be reckoned up to {}, not at {}; give the temperature of the piece in the "
            "fire.",
            celsius(CONTINUED_TO_C),
            celsius(temperature_c),
        )
    if not 0.0 <= minutes < math.inf:
        raise OutOfRange(f"A time in the fire is 0 minutes or more, not {minutes:g}.")
    if temperature_c < LOWEST_C:
        return 0.0
    constant_cm2_s = 6.1 * math.exp(-169450.0 / (_GAS_CONSTANT_J_MOL_K * (temperature_c + 273.15)))
    return METAL_IN_SCALE * fire_factor * 10.0 * math.sqrt(constant_cm2_s * minutes * 60.0)
