"""How much metal a fire takes off a face as scale.

The law is that of clean iron in free air, so it is an upper bound; a reducing coal fire scales less, by a
factor that a smith learns from weighings. Its constant gives the square of the scale's thickness in cm²/s:
read as a gain of mass in kg²/(m⁴ s) it would lose a twelfth of the metal it does.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final, NamedTuple

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

_GAS_CONSTANT_J_MOL_K: Final = 8.314462618
_COLDEST_C: Final = -273.15


class Heat(NamedTuple):
    """One stay at a temperature."""

    temperature_c: float
    minutes: float
    descaled: bool = True  # whether the scale was struck or brushed off at its end


def face_loss_mm(temperature_c: float, minutes: float, fire_factor: float = FIRE_FACTOR) -> float:
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

    >>> round(face_loss_mm(1100, 3), 3), round(face_loss_mm(1300, 4), 3)
    (0.034, 0.1)
    """
    return loss_over_heats_mm([Heat(temperature_c, minutes)], fire_factor)


def loss_over_heats_mm(heats: Iterable[Heat], fire_factor: float = FIRE_FACTOR) -> float:
    """Metal in mm that one face, clean at first, loses over several stays at a heat.

    Scale that is left on shields the face, so that the squares of the thicknesses add: sqrt(Σ k_p t). Scale
    that is struck or brushed off restarts the parabola, so that the thicknesses themselves add:
    Σ sqrt(k_p t), which is never less. Range, errors and sources as `face_loss_mm`.

    >>> round(loss_over_heats_mm([Heat(1100, 3)] * 4), 3)
    0.134
    >>> round(loss_over_heats_mm([Heat(1100, 3, descaled=False)] * 4), 3)
    0.067
    """
    if not 0.0 <= fire_factor < math.inf:
        raise OutOfRange(f"A fire factor is 0 or more, 0.3 in a usual coal fire, not {fire_factor:g}.")
    struck_off_mm = 0.0
    on_the_face_cm2 = 0.0
    for heat in heats:
        on_the_face_cm2 += _squared_cm2(heat)
        if heat.descaled:
            struck_off_mm += _scale_mm(on_the_face_cm2)
            on_the_face_cm2 = 0.0
    return METAL_IN_SCALE * fire_factor * (struck_off_mm + _scale_mm(on_the_face_cm2))


def _squared_cm2(heat: Heat) -> float:
    # Written so that a temperature which is not a number is refused too.
    if not _COLDEST_C < heat.temperature_c <= CONTINUED_TO_C:
        raise OutOfRange(
            "The loss to scale can be reckoned up to {}, not at {}; give the temperature of the piece in "
            "the fire.",
            celsius(CONTINUED_TO_C),
            celsius(heat.temperature_c),
        )
    if not 0.0 <= heat.minutes < math.inf:
        raise OutOfRange(f"A time in the fire is 0 minutes or more, not {heat.minutes:g}.")
    if heat.temperature_c < LOWEST_C:
        return 0.0
    kelvin = heat.temperature_c + 273.15
    return 6.1 * math.exp(-169450.0 / (_GAS_CONSTANT_J_MOL_K * kelvin)) * heat.minutes * 60.0


def _scale_mm(squared_cm2: float) -> float:
    return 10.0 * math.sqrt(squared_cm2)
