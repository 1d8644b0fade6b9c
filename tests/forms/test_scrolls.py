"""Scrolls: how long a bar is curled up in them, against integrals, published rules and a geometry library."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import quad
from shapely.geometry import LineString, Polygon

from coach.forms import Form, FormError
from coach.forms.round import Round
from coach.forms.spiral import Spiral
from tests.made import make

SPIRALS = [Spiral(72, 18, 14, 5.5), Spiral(150, 30, 16, 8), Spiral(60, 20, 24, 6)]


def line(spiral: Spiral) -> np.ndarray:
    """The middle of the bar, point by point, from the polar equation alone."""
    angles = np.linspace(0, 2 * math.pi * spiral.turns, 6000)
    radii = spiral.inner_mm + spiral.pitch_mm * angles / (2 * math.pi)
    return np.stack([radii * np.cos(angles), radii * np.sin(angles)], axis=1)


@pytest.mark.parametrize("spiral", SPIRALS)
def test_the_length_rolled_up_is_the_integral_along_the_line(spiral: Spiral) -> None:
    each = spiral.pitch_mm / (2 * math.pi)
    expected, _ = quad(
        lambda angle: math.hypot(spiral.inner_mm + each * angle, each),
        0,
        2 * math.pi * spiral.turns,
        epsabs=1e-10,
        epsrel=1e-12,
        limit=200,
    )
    assert spiral.length_mm() == pytest.approx(expected, rel=1e-10)


def test_a_scroll_from_its_middle_takes_the_length_of_the_smiths_formula() -> None:
    # l = π·s·n² for n turns at a spacing s, from nothing (S. G. Clackson, The Trinity Church Screen, 1981,
    # confirmed second-hand); it leaves the slope of the line out, which is 0.5 % of five turns.
    spiral = Spiral(across_mm=2 * 50 - 5 + 4, eye_mm=1, pitch_mm=10, thick_mm=4)
    assert (spiral.inner_mm, spiral.outer_mm, spiral.turns) == (0, 50, 5)
    assert spiral.length_mm() == pytest.approx(math.pi * 10 * 25, rel=6e-3)


def test_three_turns_are_as_long_as_their_mean_circle_three_times() -> None:
    # By hand: from a radius of 10 mm to one of 46 in three turns of 12: 3 · 2π · 28 = 527.79 mm, and 1.5 mm
    # for the slope of the line.
    spiral = Spiral(across_mm=2 * 46 - 6 + 5, eye_mm=2 * 10 + 6 - 5, pitch_mm=12, thick_mm=5)
    assert spiral.turns == 3
    assert spiral.length_mm() == pytest.approx(527.79 + 1.5, abs=0.1)


@pytest.mark.parametrize("spiral", SPIRALS)
def test_it_is_as_far_across_and_as_open_as_it_is_said_to_be(spiral: Spiral) -> None:
    points, half = line(spiral), len(line(spiral)) / (2 * spiral.turns)
    outer = np.linalg.norm(points[-1]) + np.linalg.norm(points[round(len(points) - 1 - half)])
    assert outer + spiral.thick_mm == pytest.approx(spiral.across_mm, abs=0.02)
    inner = np.linalg.norm(points[0]) + np.linalg.norm(points[round(half)])
    assert inner - spiral.thick_mm == pytest.approx(spiral.eye_mm, abs=0.02)


@pytest.mark.parametrize("spiral", SPIRALS)
def test_the_strip_that_is_drawn_is_the_bar_laid_along_the_line(spiral: Spiral) -> None:
    strip = Polygon(spiral.strip())
    assert strip.is_valid
    laid = LineString(line(spiral)).buffer(spiral.thick_mm / 2, cap_style="flat")
    # A polygon of 48 sides to the turn lacks 0.3 % of its circle.
    assert strip.area == pytest.approx(laid.area, rel=4e-3)
    assert laid.area == pytest.approx(spiral.thick_mm * spiral.length_mm(), rel=1e-4)
    west, south, east, north = strip.bounds
    assert west == pytest.approx(0)
    assert north == pytest.approx(-south)
    assert east - west == pytest.approx(spiral.across_mm, rel=5e-3)


def test_a_scroll_of_a_bar_holds_the_bar() -> None:
    form = make("scroll", {"across": 72, "eye": 18, "pitch": 14, "width": 20, "thickness": 5.5})
    assert form.volume_mm3() == pytest.approx(20 * 5.5 * SPIRALS[0].length_mm(), rel=1e-12)
    turned = make("round scroll", {"across": 72, "eye": 18, "pitch": 14, "diameter": 8})
    bar = Round(8, 1).solved("length", turned.volume_mm3())
    assert bar.length_mm == pytest.approx(turned.length_mm, rel=1e-12)


def test_a_square_bar_needs_only_its_thickness() -> None:
    form = make("scroll", {"across": 72, "eye": 18, "pitch": 14, "thickness": 6})
    assert form.size_mm("width") == 6


@pytest.mark.parametrize(
    ("sizes", "says"),
    [
        ({"across": 70, "eye": 18, "pitch": 5}, "lie in each other"),
        ({"across": 70, "eye": 6, "pitch": 14}, "an eye of 6 mm is too small"),
        ({"across": 40, "eye": 20, "pitch": 14}, "less than one turn"),
    ],
)
def test_what_no_bar_can_be_curled_to_is_refused(sizes: dict[str, float], says: str) -> None:
    with pytest.raises(FormError, match=says):
        make("scroll", {**sizes, "width": 20, "thickness": 6})


def seen(form: Form) -> tuple[float, float]:
    loop = form.curled("thickness")
    assert loop is not None
    return max(x for x, _ in loop), 2 * max(y for _, y in loop)


def test_longer_metal_is_wider_across_when_it_is_curled() -> None:
    form = make("scroll", {"across": 72, "eye": 18, "pitch": 14, "width": 20, "thickness": 5.5})
    more = form.solved("across", form.volume_mm3() * 1.2)
    assert more.size_mm("across") > 72
    assert seen(more) > seen(form)
