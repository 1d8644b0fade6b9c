"""What colour glowing metal really has, and how that colour is shown on a screen.

Scaled steel is close to a grey body, so its emissivity takes light of every wavelength alike and leaves the
colour as it is: Planck's law, seen by the CIE 1931 standard observer, gives it without a table of words.

Two things a screen cannot do. The reds of the forge lie outside sRGB (blue below zero under about 1900 K,
green under about 964 K): such a channel is shown as none. And from the first red to a welding heat the
luminance rises about ten million times, to the eye the stronger cue by far, as the hue alone stays orange:
so `shown_hue` is the true hue, and `glow_rgb` a swatch whose lightness tells the luminance.
"""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path
from typing import Final

from coach.fire.srgb import Linear, Rgb, linear_from_xyz, luminance_of, relative_luminance, rgb_from_linear
from coach.quantities.between import between
from coach.quantities.checks import check_temperature
from coach.quantities.refusal import OutOfRange

Xyz = tuple[float, float, float]  # CIE 1931, in W/m² of a black body; only ratios of them are used

#: What is told of at all, in °C (our choice).
LOWEST_C: Final = -20.0
HIGHEST_C: Final = 1600.0

#: Judgement, between the 474 and 524 °C that published tables give for twilight and for daylight: below
#: this no glow is seen in a forge, and the metal is shown as cold.
FIRST_GLOW_C: Final = 480.0
#: A welding heat, in °C (from memory).
WELDING_HEAT_C: Final = 1300.0

#: How bright the swatch is, as CIE L* from 0 to 100 (judgement): black scale in the light of the shop, a
#: welding heat, and the hottest that is told.
COLD_LIGHTNESS: Final = 12.5
WELDING_LIGHTNESS: Final = 92.0
HOTTEST_LIGHTNESS: Final = 98.5

#: Judgement: the share of the glow that glare in the eye spreads over every colour alike.
GLARE_SHARE: Final = 0.06

#: The CIE 1931 standard observer of 2°: wavelength in nm, and x̄, ȳ and z̄ there, every STEP_NM. Source:
#: CIE 15, Colorimetry, and ISO/CIE 11664-1 (confirmed second-hand: as the open library colour-science gives
#: them, which the tests compare).
STEP_NM: Final = 5
CIE_1931_2_DEG: Final = tuple(
    (int(nm), float(x_bar), float(y_bar), float(z_bar))
    for nm, x_bar, y_bar, z_bar in (
        line.split(",")
        for line in Path(__file__).with_name("observer.csv").read_text(encoding="utf-8").splitlines()[1:]
    )
)

#: 0 °C in K (by definition).
_KELVIN: Final = 273.15
#: The constants of Planck's law, CODATA 2018; c₂ as the CIE rounded it for its illuminants, CIE 15 (from
#: memory).
_C1: Final = 3.741771e-16  # W m²
_C2: Final = 1.4388e-2  # m K
#: More than there are whole degrees (our choice).
_CACHED: Final = 2048


def check_glow(temperature_c: float) -> None:
    """Raises OutOfRange outside -20 to 1600 °C."""
    sentence = "A colour is told from {}, not at {}; give the temperature of the metal."
    check_temperature(temperature_c, LOWEST_C, HIGHEST_C, sentence)


@lru_cache(maxsize=_CACHED)
def black_body(temperature_k: float) -> Xyz:
    """CIE XYZ of a black body at a temperature in K, which must be finite and above 200 K.

    The sum over 360 to 830 nm, every 5 nm, of Planck's c1 λ⁻⁵ / (exp(c2 / λT) - 1) times x̄, ȳ and z̄ of the
    2° observer, with c1 = 3.741771e-16 W m² and c2 = 1.4388e-2 m K; steps of 5 nm move x and y by less than
    1e-5. Source: Planck's law; CIE 15, Colorimetry (confirmed second-hand).

    >>> x, y, z = black_body(1273.15)
    >>> round(x / (x + y + z), 5), round(y / (x + y + z), 5)
    (0.61521, 0.37472)
    """
    if not 200.0 < temperature_k < math.inf:
        raise OutOfRange(f"A temperature above 200 K was expected, not {temperature_k:g} K.")
    x = y = z = 0.0
    for wavelength_nm, x_bar, y_bar, z_bar in CIE_1931_2_DEG:
        metres = wavelength_nm * 1e-9
        light = _C1 / metres**5 / math.expm1(_C2 / (metres * temperature_k)) * STEP_NM * 1e-9
        x += light * x_bar
        y += light * y_bar
        z += light * z_bar
    return x, y, z


def luminance_ratio(one_c: float, other_c: float) -> float:
    """How many times as bright metal is at one temperature as at another, both in °C.

    The ratio of the two CIE Y; raises OutOfRange outside -20 to 1600 °C.

    >>> round(luminance_ratio(1000, 800), 1)
    32.7
    """
    check_glow(one_c)
    check_glow(other_c)
    return black_body(one_c + _KELVIN)[1] / black_body(other_c + _KELVIN)[1]


def shown_hue(light: Xyz) -> Linear:
    """Linear sRGB of the hue of light: channels below zero as none, the greatest brought to 1."""
    red, green, blue = (max(channel, 0.0) for channel in linear_from_xyz(*light))
    greatest = max(red, green, blue)
    return (red / greatest, green / greatest, blue / greatest)


def shown_lightness(temperature_c: float) -> float:
    """The CIE L* that `glow_rgb` aims at: equal ratios of luminance are equal steps of lightness.

    L* rises in a straight line with the logarithm of `luminance_ratio`, from COLD_LIGHTNESS at the first
    glow to WELDING_LIGHTNESS at a welding heat, and on in a flatter line to HOTTEST_LIGHTNESS at 1600 °C;
    below the first glow it stays. Judgement. Raises OutOfRange outside -20 to 1600 °C.

    >>> [round(shown_lightness(temperature_c)) for temperature_c in (20, 600, 800, 1000, 1300)]
    [12, 33, 57, 74, 92]
    """
    lightnesses = (
        (FIRST_GLOW_C, COLD_LIGHTNESS),
        (WELDING_HEAT_C, WELDING_LIGHTNESS),
        (HIGHEST_C, HOTTEST_LIGHTNESS),
    )
    rows = [(math.log(luminance_ratio(at_c, FIRST_GLOW_C)), at) for at_c, at in lightnesses]
    return between(rows, max(0.0, math.log(luminance_ratio(temperature_c, FIRST_GLOW_C))))


def glow_rgb(temperature_c: float) -> Rgb:
    """The colour of a swatch of metal at a temperature: dark grey when cold, then from red to pale yellow.

    The light of the shop on black scale, plus the glow in its true hue with GLARE_SHARE of it spread to
    white, goes through 1 - exp(-exposure), channel by channel, as film and a dazzled eye saturate; the
    exposure is that which gives `shown_lightness`. So a red or an orange too bright for the screen moves
    towards yellow and white as a smith sees it, never the other way and never past yellow: red ≥ green ≥
    blue always. The hue of `shown_hue` is the truth; the saturation is judgement.
    To the nearest whole degree; raises OutOfRange outside -20 to 1600 °C.

    >>> glow_rgb(20), glow_rgb(700), glow_rgb(900), glow_rgb(1300)
    ((33, 33, 33), (207, 48, 46), (251, 126, 72), (255, 233, 121))
    """
    check_glow(temperature_c)
    return _glow(round(temperature_c))


@lru_cache(maxsize=_CACHED)
def _glow(whole_c: int) -> Rgb:
    cold = luminance_of(COLD_LIGHTNESS)
    if whole_c <= FIRST_GLOW_C:
        return rgb_from_linear((cold, cold, cold))
    hue = shown_hue(black_body(whole_c + _KELVIN))
    glare = GLARE_SHARE * relative_luminance(hue)
    glow = [(1.0 - GLARE_SHARE) * channel + glare for channel in hue]

    def exposed(exposure: float) -> Linear:
        red, green, blue = (1.0 - (1.0 - cold) * math.exp(-exposure * channel) for channel in glow)
        return (red, green, blue)

    aim = luminance_of(shown_lightness(whole_c))
    least, most = 0.0, 1.0
    while relative_luminance(exposed(most)) < aim:
        most *= 2.0
    for _ in range(40):  # far below one step of an 8-bit channel
        middle = (least + most) / 2.0
        least, most = (middle, most) if relative_luminance(exposed(middle)) < aim else (least, middle)
    return rgb_from_linear(exposed(most))
