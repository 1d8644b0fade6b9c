"""Tests of what colour glowing metal has, and how it is shown."""

from __future__ import annotations

import colorsys
import math
import subprocess
import sys
import warnings
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.glow import (
    CIE_1931_2_DEG,
    COLD_LIGHTNESS,
    FIRST_GLOW_C,
    HIGHEST_C,
    LOWEST_C,
    WELDING_LIGHTNESS,
    black_body,
    glow_rgb,
    luminance_ratio,
    shown_hue,
    shown_lightness,
)
from coach.fire.srgb import (
    Rgb,
    contrast,
    linear_from_rgb,
    linear_from_xyz,
    luminance_of,
    readable_on,
    relative_luminance,
    rgb_from_linear,
)
from coach.quantities.refusal import OutOfRange

KELVIN = 273.15

temperatures_c = st.floats(min_value=LOWEST_C, max_value=HIGHEST_C)
glowing_c = st.floats(min_value=500, max_value=HIGHEST_C)
channels = st.integers(min_value=0, max_value=255)
rgbs = st.tuples(channels, channels, channels)


@pytest.fixture(scope="module")
def colour() -> Any:
    # The library warns of optional parts that are not installed and that no test needs.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import colour as library
    return library


def luminance(rgb: Rgb) -> float:
    return relative_luminance(linear_from_rgb(rgb))


# x, y and the 8-bit hue: Planck's law times the CIE 1931 2° observer at 1 nm, made sRGB after IEC 61966-2-1,
# worked with colour-science 0.4.7 apart from the program.
HUES = [
    (873.15, 0.67083, 0.32792, (255, 0, 0)),
    (973.15, 0.65655, 0.34106, (255, 7, 0)),
    (1000, 0.65275, 0.34446, (255, 23, 0)),
    (1073.15, 0.64249, 0.35336, (255, 45, 0)),
    (1173.15, 0.62870, 0.36462, (255, 64, 0)),
    (1273.15, 0.61521, 0.37472, (255, 78, 0)),
    (1373.15, 0.60201, 0.38361, (255, 89, 0)),
    (1473.15, 0.58913, 0.39127, (255, 100, 0)),
    (1500, 0.58572, 0.39312, (255, 102, 0)),
    (1573.15, 0.57655, 0.39773, (255, 108, 0)),
    (2000, 0.52668, 0.41330, (255, 139, 22)),
    (2855.54, 0.44757, 0.40744, (255, 178, 100)),
]


def chromaticity(temperature_c: float) -> tuple[float, float]:
    light = black_body(temperature_c + KELVIN)
    return light[0] / sum(light), light[1] / sum(light)


@pytest.mark.parametrize(("temperature_k", "x", "y", "rgb"), HUES)
def test_the_hue_is_that_of_plancks_law(temperature_k: float, x: float, y: float, rgb: Rgb) -> None:
    light = black_body(temperature_k)
    whole = sum(light)
    assert (light[0] / whole, light[1] / whole) == pytest.approx((x, y), abs=1e-5)
    assert rgb_from_linear(shown_hue(light)) == rgb


def test_a_lamp_of_illuminant_a_has_its_published_colour() -> None:
    # CIE standard illuminant A, x 0.44757 and y 0.40745, at 2848 K times 1.4388/1.4350; from memory.
    light = black_body(2848 * 1.4388 / 1.4350)
    assert light[0] / sum(light) == pytest.approx(0.44757, abs=2e-5)
    assert light[1] / sum(light) == pytest.approx(0.40745, abs=2e-5)


def test_two_hundred_degrees_make_a_forging_heat_thirty_times_as_bright() -> None:
    # Planck's law and the CIE observer at 1 nm, worked with colour-science 0.4.7 apart from the program.
    assert luminance_ratio(1000, 800) == pytest.approx(32.732, abs=0.01)
    assert luminance_ratio(800, 1000) == pytest.approx(1 / 32.732, rel=1e-4)


def test_the_observer_is_the_published_one(colour: Any) -> None:
    published = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    here = np.array(CIE_1931_2_DEG)
    assert here[:, 0].tolist() == list(range(360, 831, 5))
    np.testing.assert_allclose(here[:, 1:], published[here[:, 0]], rtol=0, atol=1e-12)


@pytest.mark.parametrize("temperature_c", range(500, 1401, 50))
def test_an_independent_library_sees_the_same_light(colour: Any, temperature_c: int) -> None:
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    shape = colour.SpectralShape(360, 830, 1)

    def seen(at_c: float) -> list[float]:
        light = colour.sd_blackbody(at_c + KELVIN, shape)
        even = colour.sd_ones(shape)
        xyz = colour.sd_to_XYZ(light, cmfs=observer, illuminant=even, method="Integration")
        return [float(value) for value in xyz]

    xyz = seen(temperature_c)
    # Steps of 1 nm there and of 5 nm here, and the constants of Planck's law to another figure.
    assert chromaticity(temperature_c) == pytest.approx((xyz[0] / sum(xyz), xyz[1] / sum(xyz)), abs=2e-5)
    assert luminance_ratio(temperature_c, 1000) == pytest.approx(xyz[1] / seen(1000)[1], rel=1e-3)

    linear = colour.XYZ_to_sRGB(np.array(xyz) / xyz[1], apply_cctf_encoding=False).clip(0)
    expected = 255 * colour.cctf_encoding(linear / linear.max(), function="sRGB")
    hue = rgb_from_linear(shown_hue(black_body(temperature_c + KELVIN)))
    assert hue == pytest.approx(tuple(expected), abs=1.5)


def test_the_screen_is_that_of_an_independent_library(colour: Any) -> None:
    for xyz in ((0.3, 0.4, 0.5), (0.2, 0.1, 0.02), (0.95047, 1.0, 1.08883)):
        expected = colour.XYZ_to_sRGB(np.array(xyz), apply_cctf_encoding=False)
        # The library's matrix has four figures.
        assert linear_from_xyz(*xyz) == pytest.approx(tuple(expected), abs=2e-4)
    for light in (0.0, 0.001, 0.0031308, 0.02, 0.5, 1.0):
        code = round(255 * float(colour.cctf_encoding(light, function="sRGB")))
        assert rgb_from_linear((light, 0.0, 0.0))[0] == code
    for lightness in (0, 3, 8, 8.1, 50, 92, 100):
        expected_y = float(colour.colorimetry.luminance_CIE1976(lightness, 1.0))
        assert luminance_of(lightness) == pytest.approx(expected_y, abs=1e-9)


@given(glowing_c, glowing_c)
def test_hotter_metal_is_brighter_and_less_red(one_c: float, other_c: float) -> None:
    cooler, hotter = sorted((one_c, other_c))
    assert chromaticity(hotter)[0] <= chromaticity(cooler)[0] + 1e-12
    assert luminance_ratio(hotter, cooler) >= 1.0 - 1e-12


def test_the_swatch_never_darkens_as_the_metal_grows_hotter() -> None:
    shown = [luminance(glow_rgb(temperature_c)) for temperature_c in range(-20, 1601)]
    assert all(cooler <= hotter for cooler, hotter in pairwise(shown))


def test_the_swatch_turns_from_red_towards_yellow_and_never_past_it() -> None:
    shown = [glow_rgb(temperature_c) for temperature_c in range(-20, 1601)]
    assert all(red >= green >= blue for red, green, blue in shown)
    # From a dull red on, where the steps of 8 bits no longer move the hue by themselves.
    turns = [colorsys.rgb_to_hsv(*(channel / 255 for channel in rgb))[0] * 360 for rgb in shown[620:]]
    assert all(later >= earlier - 0.6 for earlier, later in pairwise(turns))
    assert turns[-1] <= 60


def test_a_welding_heat_looks_brighter_and_yellower_than_an_orange_heat() -> None:
    orange, welding = glow_rgb(900), glow_rgb(1300)
    assert luminance(welding) > 1.8 * luminance(orange)
    assert welding[1] - orange[1] > 60  # more green beside the same red is yellower


def test_a_dull_red_is_dark_and_red() -> None:
    red, green, blue = glow_rgb(600)
    assert red > 3 * green
    assert red > 3 * blue
    assert luminance((red, green, blue)) < 0.2


@given(temperatures_c)
def test_equal_ratios_of_brightness_are_equal_steps_of_lightness(temperature_c: float) -> None:
    whole_c = round(temperature_c)
    # Half a step of an 8-bit channel moves the luminance by less than 0.5 %.
    assert luminance(glow_rgb(whole_c)) == pytest.approx(luminance_of(shown_lightness(whole_c)), abs=0.005)
    if FIRST_GLOW_C < whole_c <= 1300:
        share = (shown_lightness(whole_c) - COLD_LIGHTNESS) / (WELDING_LIGHTNESS - COLD_LIGHTNESS)
        whole = luminance_ratio(1300, FIRST_GLOW_C)
        assert luminance_ratio(whole_c, FIRST_GLOW_C) == pytest.approx(whole**share, rel=1e-9)


def test_below_the_first_glow_the_metal_is_dark_and_grey() -> None:
    assert len({glow_rgb(temperature_c) for temperature_c in (-20, 20, 300, 400, 479, 480)}) == 1
    red, green, blue = glow_rgb(20)
    assert red == green == blue
    assert luminance((red, green, blue)) < 0.03
    assert glow_rgb(500)[0] > glow_rgb(480)[0]


@pytest.mark.parametrize("temperature_c", [-20.1, -300, 1600.1, 9e9, math.inf, -math.inf, math.nan])
def test_a_temperature_out_of_the_range_is_refused_in_one_sentence(temperature_c: float) -> None:
    asks = (
        glow_rgb,
        shown_lightness,
        lambda at_c: luminance_ratio(at_c, 900),
        lambda at_c: luminance_ratio(900, at_c),
    )
    for ask in asks:
        with pytest.raises(OutOfRange) as refused:
            ask(temperature_c)
        sentence = str(refused.value)
        assert "-20 to 1600 °C" in sentence
        assert sentence.endswith(".")
        assert "\n" not in sentence


@pytest.mark.parametrize("temperature_k", [0.0, -5.0, math.inf, math.nan])
def test_a_black_body_without_a_temperature_is_refused(temperature_k: float) -> None:
    with pytest.raises(OutOfRange, match=r"^A temperature above 200 K was expected, not \S+ K\.$"):
        black_body(temperature_k)


@given(rgbs)
def test_words_on_any_swatch_can_be_read(rgb: Rgb) -> None:
    ink = {"black": (0, 0, 0), "white": (255, 255, 255)}
    # WCAG 2.2, success criterion 1.4.3: 4.5 for text.
    assert contrast(rgb, ink[readable_on(rgb)]) >= 4.5


def test_contrast_is_that_of_the_web_guidelines() -> None:
    # WCAG 2: black on white is 21, and #767676 on white is the lightest grey that passes 4.5, at 4.54.
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((118, 118, 118), (255, 255, 255)) == pytest.approx(4.54, abs=0.005)
    assert contrast((119, 119, 119), (255, 255, 255)) < 4.5
    assert readable_on(glow_rgb(20)) == "white"
    assert readable_on(glow_rgb(1200)) == "black"


@given(rgbs)
def test_a_colour_of_the_screen_comes_back_from_its_light(rgb: Rgb) -> None:
    assert rgb_from_linear(linear_from_rgb(rgb)) == rgb


def test_colours_need_no_library_of_numbers() -> None:
    asked = "import sys, coach.fire.glow, coach.fire.temper_colours; print('numpy' in sys.modules)"
    told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "False"
