"""How much metal a fire takes off a face as scale.

The law is that of clean iron in free air, so it is an upper bound; a reducing coal fire scales less, by a
factor that a smith learns from weighings. Its constant gives the square of the scale's thickness in cm²/s:
read as a gain of mass in kg²/(m⁴ s) it would lose a twelfth of the metal it does.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Final, NamedTuple

from coach.quantities.refusal import Refusal

#: The range in which the law is published, in °C (from memory).
LOWEST_C: Final = 700.0
HIGHEST_C: Final = 1250.0

#: Up to here the law is continued for welding heats, in °C: iron scale melts at about 1370 °C and runs off
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


class NoScaleLaw(Refusal):
    """A heat for which nothing can be said of the scale; its text is one plain sentence."""


class Heat(NamedTuple):
    """One stay at a temperature."""

    temperature_c: float
    minutes: float
    descaled: bool = True  # whether the scale was struck or brushed off at its end


def parabolic_constant_cm2_s(temperature_c: float) -> float:
    """How fast the square of the scale's thickness grows, in cm²/s: 6.1 exp(-169450 / (R T)), T in K.

    Published for iron in air from 700 to 1250 °C; raises NoScaleLaw elsewhere.
    Source: J. Païdassi, 1958, as quoted in R. Y. Chen and W. Y. D. Yuen, Oxidation of Metals 59 (2003), 433
    (from memory).

    >>> round(parabolic_constant_cm2_s(1000) * 1e7, 2)
    6.81
    """
    _refuse_hotter_than(HIGHEST_C, temperature_c)
    if temperature_c < LOWEST_C:
        raise NoScaleLaw(
            f"The growth of scale is published from {LOWEST_C:.0f} to {HIGHEST_C:.0f} °C, not at "
            f"{temperature_c:.0f} °C; count what is colder as no scale."
        )
    return _constant_cm2_s(temperature_c)


def scale_thickness_mm(temperature_c: float, minutes: float) -> float:
    """Thickness in mm of the scale on a clean face after some minutes at a temperature in free air.

    x = sqrt(k_p t) with `parabolic_constant_cm2_s`. Published from 700 to 1250 °C; colder counts as no scale,
    which leaves out less than 0.007 mm of metal in five minutes (judgement: nothing is published for it
    here). Raises NoScaleLaw above 1250 °C and for a time below 0.

    >>> round(scale_thickness_mm(1000, 60), 3)
    0.495
    """
    _refuse_hotter_than(HIGHEST_C, temperature_c)
    return _scale_mm(_squared_cm2(temperature_c, minutes))


def face_loss_mm(
    temperature_c: float,
    minutes: float,
    fire_factor: float = FIRE_FACTOR,
    *,
    counted_up_to_c: float = CONTINUED_TO_C,
) -> float:
    """Metal in mm that one clean face loses in some minutes at a temperature in the fire.

    0.564 times the scale's thickness times the fire factor; the doubt of the answer is to the answer as
    FIRE_FACTOR_DOUBT to FIRE_FACTOR until a weighing says better. Colder than 700 °C counts as no loss.
    Published up to 1250 °C. Welding heats are hotter, so the same law is continued to 1370 °C, which is
    judgement: it keeps a welding heat dearer than a forging heat. With `counted_up_to_c=HIGHEST_C` whatever
    is hotter counts as 1250 °C instead, and four minutes at 1300 °C take 0.08 instead of 0.10 mm.
    Raises NoScaleLaw above 1370 °C, for a time or a factor below 0, and for a `counted_up_to_c` outside
    700 to 1370 °C.
    Sources: of the thickness, `parabolic_constant_cm2_s`; of the share of metal, METAL_IN_SCALE (from
    memory); of the factor, judgement.

    >>> round(face_loss_mm(1100, 3), 3), round(face_loss_mm(1300, 4), 3)
    (0.034, 0.1)
    """
    return loss_over_heats_mm([Heat(temperature_c, minutes)], fire_factor, counted_up_to_c=counted_up_to_c)


def loss_over_heats_mm(
    heats: Iterable[Heat], fire_factor: float = FIRE_FACTOR, *, counted_up_to_c: float = CONTINUED_TO_C
) -> float:
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
        raise NoScaleLaw(f"A fire factor is 0 or more, 0.3 in a usual coal fire, not {fire_factor:g}.")
    if not LOWEST_C <= counted_up_to_c <= CONTINUED_TO_C:
        raise NoScaleLaw(
            f"Heats can be counted up to a temperature from {LOWEST_C:.0f} to {CONTINUED_TO_C:.0f} °C, "
            f"not {counted_up_to_c:g} °C."
        )
    struck_off_mm = 0.0
    on_the_face_cm2 = 0.0
    for heat in heats:
        _refuse_hotter_than(CONTINUED_TO_C, heat.temperature_c)
        on_the_face_cm2 += _squared_cm2(min(heat.temperature_c, counted_up_to_c), heat.minutes)
        if heat.descaled:
            struck_off_mm += _scale_mm(on_the_face_cm2)
            on_the_face_cm2 = 0.0
    return METAL_IN_SCALE * fire_factor * (struck_off_mm + _scale_mm(on_the_face_cm2))


def _constant_cm2_s(temperature_c: float) -> float:
    return 6.1 * math.exp(-169450.0 / (_GAS_CONSTANT_J_MOL_K * (temperature_c + 273.15)))


def _squared_cm2(temperature_c: float, minutes: float) -> float:
    if not 0.0 <= minutes < math.inf:
        raise NoScaleLaw(f"A time in the fire is 0 minutes or more, not {minutes:g}.")
    if temperature_c < LOWEST_C:
        return 0.0
    return _constant_cm2_s(temperature_c) * minutes * 60.0


def _scale_mm(squared_cm2: float) -> float:
    return 10.0 * math.sqrt(squared_cm2)


def _refuse_hotter_than(highest_c: float, temperature_c: float) -> None:
    # Written so that a temperature which is not a number is refused too.
    if not _COLDEST_C < temperature_c <= highest_c:
        raise NoScaleLaw(
            f"The loss to scale can be reckoned up to {highest_c:.0f} °C, not at {temperature_c:.0f} °C; "
            "give the temperature of the piece in the fire."
        )
