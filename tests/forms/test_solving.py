"""Settling one size from a volume, and what cannot be settled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

import pytest

from coach.forms import CrossSection, End, Form, FormError
from coach.forms.roots import NoRoot, monotone_root
from coach.telling.words import write
from tests.made import make

FLAT = {"width": 40, "thickness": 10, "length": 100}
EYE = {"width": 40, "thickness": 30, "length": 60, "hole_length": 30, "hole_width": 16}


@pytest.mark.parametrize("volume_mm3", [0.0, -5.0, math.inf, math.nan])
def test_a_volume_must_be_above_zero(volume_mm3: float) -> None:
    with pytest.raises(FormError, match="cannot hold"):
        make("flat", FLAT).solved("length", volume_mm3)


def test_metal_that_lacks_is_told_as_none_and_not_as_less_than_none() -> None:
    with pytest.raises(FormError) as refused:
        make("flat", FLAT).solved("length", -5000.0)
    assert "cannot hold 0.00 cm³" in write(refused.value.words)


def test_a_section_of_nothing_holds_no_metal_however_long() -> None:
    nothing = make("flat", FLAT).with_sizes({"width": 0.0})
    with pytest.raises(FormError, match="no length makes this flat form hold"):
        nothing.solved("length", 1000.0)


def test_a_dimension_the_form_lacks_cannot_be_settled() -> None:
    with pytest.raises(FormError, match="the flat form has no lenth: did you mean length"):
        make("flat", FLAT).solved("lenth", 1000)


def test_too_little_metal_for_the_block_leaves_no_wall_beside_the_hole() -> None:
    with pytest.raises(FormError, match="leaves no wall in a width"):
        make("eyed", EYE).solved("width", 10_000)


def test_too_little_metal_leaves_no_end_beyond_the_hole() -> None:
    with pytest.raises(FormError, match="leaves no end in a length"):
        make("eyed", EYE).solved("length", 20_000)


def test_no_hole_can_hold_more_metal_than_the_block() -> None:
    with pytest.raises(FormError, match="no hole width makes this eyed form hold"):
        make("eyed", EYE).solved("hole_width", 40 * 30 * 60 + 1)


def test_a_hole_settled_too_large_for_the_block_is_refused() -> None:
    with pytest.raises(FormError, match="leaves no"):
        make("eyed", EYE).solved("hole_length", 30_000)


def test_a_round_hole_is_settled_as_one_diameter() -> None:
    eye = make("eyed", {**EYE, "hole_length": 16}, {"hole": "round"})
    settled = eye.solved("hole_width", 62_000)
    near = settled.size_mm("hole_width")
    assert settled.size_mm("hole_length") == near
    assert settled.size_mm("far_hole_width") == 16
    # Frustum of a cone 30 deep: π·30/12·(D² + 16·D + 16²) = 72000 − 62000.
    assert math.pi * 30 / 12 * (near**2 + 16 * near + 256) == pytest.approx(10_000)


def test_a_cone_on_one_end_alone_may_already_hold_too_much() -> None:
    cone = make("round taper", {"diameter": 20, "end_diameter": 12, "length": 50})
    with pytest.raises(FormError, match="no end diameter"):
        cone.solved("end_diameter", math.pi * 50 / 12 * 399)


def test_a_taper_cannot_end_in_less_than_nothing() -> None:
    taper = make("taper", {"width": 30, "thickness": 10, "end_thickness": 3, "length": 80})
    with pytest.raises(FormError, match="no end thickness"):
        taper.solved("end_thickness", 5_000)


def test_a_ring_cannot_hold_more_than_its_disc() -> None:
    ring = make("ring", {"outer_diameter": 100, "inner_diameter": 80, "thickness": 10})
    with pytest.raises(FormError, match="no inner diameter"):
        ring.solved("inner_diameter", math.pi / 4 * 100**2 * 10)


def test_a_bar_too_short_to_close_makes_no_ring() -> None:
    ring = make("round ring", {"inner_diameter": 40, "diameter": 12})
    with pytest.raises(FormError, match="no inner diameter"):
        ring.solved("inner_diameter", math.pi / 4 * 12**2 * math.pi * 11)


def test_a_socket_settled_solid_is_refused() -> None:
    socket = make("socket", {"mouth_diameter": 32, "end_diameter": 18, "wall": 3, "length": 100})
    with pytest.raises(FormError, match="no wall"):
        socket.solved("wall", math.pi / 4 * 32**2 * 100)
    with pytest.raises(FormError, match="leaves no bore"):
        socket.solved("wall", math.pi * 9.5 * 100 * (25 - 9.5))


def test_a_round_rings_bar_is_settled_from_a_cubic() -> None:
    # π²/4·d²·(D + d) with D 100 and d 12.
    ring = make("round ring", {"inner_diameter": 100, "diameter": 5})
    settled = ring.solved("diameter", math.pi**2 / 4 * 144 * 112)
    assert settled.size_mm("diameter") == pytest.approx(12, rel=1e-12)


@dataclass(frozen=True, slots=True)
class Ball(Form):
    """A ball with a label of no size: V = π/6·d³."""

    KIND: ClassVar[str] = "ball"
    SUMMARY: ClassVar[str] = "a ball, for the test"
    DIMENSIONS: ClassVar[tuple[str, ...]] = ("diameter", "label")
    FREE: ClassVar[str] = "diameter"

    diameter_mm: float
    label_mm: float

    @property
    def length_mm(self) -> float:
        """The diameter, mm."""
        return self.diameter_mm

    def volume_mm3(self) -> float:
        """π/6·d³, mm³."""
        return math.pi / 6 * self.diameter_mm**3

    def side_surface_mm2(self) -> float:
        """π·d², mm²."""
        return math.pi * self.diameter_mm**2

    def end_area_mm2(self, end: End) -> float:
        """0."""
        return 0.0

    def section(self, at_mm: float) -> CrossSection:
        """A disc."""
        return CrossSection(math.pi * at_mm * (self.diameter_mm - at_mm), ())


def test_a_form_that_gives_no_closed_form_is_settled_by_a_root() -> None:
    assert Ball(3.0, 1.0).solved("diameter", math.pi / 6 * 27e6).diameter_mm == pytest.approx(300, rel=1e-12)
    assert Ball(3e4, 1.0).solved("diameter", math.pi / 6).diameter_mm == pytest.approx(1, rel=1e-12)


def test_a_dimension_that_does_not_change_the_volume_cannot_be_settled() -> None:
    with pytest.raises(FormError, match="no label makes this ball form hold"):
        Ball(3.0, 1.0).solved("label", 100)


@pytest.mark.parametrize("power", [1, 2, 3, 7, -1, -3])
@pytest.mark.parametrize("start", [1e-3, 1.0, 2.5, 1e4])
def test_a_root_is_found_from_far_away_on_rising_and_falling_curves(power: int, start: float) -> None:
    assert monotone_root(lambda x: x**power, 2.5**power, start) == pytest.approx(2.5, rel=1e-12)


def test_a_root_is_found_quickly_on_a_stiff_curve() -> None:
    asked: list[float] = []

    def stiff(x: float) -> float:
        asked.append(x)
        return math.expm1(x)

    assert monotone_root(stiff, math.expm1(20.0), 1.0) == pytest.approx(20, rel=1e-12)
    assert len(asked) < 80


@pytest.mark.parametrize("function", [lambda _: 1.0, lambda x: x / (1 + x)])
def test_a_value_out_of_reach_has_no_root(function: object) -> None:
    assert callable(function)
    with pytest.raises(NoRoot):
        monotone_root(function, 2.0, 1.0)
