"""Making a form from what was said of it, and what is said back."""

from __future__ import annotations

import math

import pytest

from coach.forms import FormError, stations_from_sizes
from tests.made import make, options_of

FLAT = {"width": 40.0, "thickness": 8.0, "length": 120.0}
EYE = {"width": 40.0, "thickness": 30.0, "length": 60.0, "hole_length": 30.0, "hole_width": 16.0}


def refusal(
    kind: str,
    sizes: dict[str, float],
    options: dict[str, str] | None = None,
    stations: tuple[tuple[float, float, float], ...] = (),
) -> str:
    """What is said when the form is refused."""
    with pytest.raises(FormError) as refused:
        make(kind, sizes, options or {}, stations)
    return str(refused.value)


def test_a_form_is_made_by_its_trade_name() -> None:
    form = make("round taper", {"diameter": 20, "end_diameter": 12, "length": 50})
    assert form.KIND == "round taper"


def test_an_end_left_unsaid_is_as_wide_as_the_start() -> None:
    taper = make("taper", {"width": 30, "thickness": 10, "end_thickness": 3, "length": 80})
    assert taper.size_mm("end_width") == 30
    assert taper.size_mm("end_thickness") == 3


def test_a_hole_left_unsaid_at_the_far_side_is_straight() -> None:
    assert make("eyed", EYE).sizes_mm() == {**EYE, "far_hole_length": 30, "far_hole_width": 16}


def test_one_diameter_is_enough_for_a_round_hole() -> None:
    sizes = {"width": 40.0, "thickness": 30.0, "length": 60.0}
    straight = make("eyed", {**sizes, "hole_width": 16}, {"hole": "round"})
    assert straight.size_mm("hole_length") == straight.size_mm("far_hole_length") == 16
    tapered = make("eyed", {**sizes, "hole_length": 16, "far_hole_length": 14}, {"hole": "round"})
    assert tapered.size_mm("far_hole_width") == 14
    assert tapered.with_sizes({"hole_width": 17}).size_mm("hole_length") == 17


def test_the_first_choice_is_the_default() -> None:
    assert options_of(make("eyed", EYE)) == {"hole": "slot", "through": "thickness"}


@pytest.mark.parametrize("size", [0.0, -3.0, math.inf, math.nan])
def test_a_size_must_be_finite_and_above_zero(size: float) -> None:
    assert "the length must be a size above zero" in refusal("flat", {**FLAT, "length": size})


@pytest.mark.parametrize(
    ("sizes", "options", "fault"),
    [
        ({"hole_width": 40}, {}, "the hole width of 40 mm leaves no wall in a width of 40 mm"),
        ({"hole_width": 30}, {"through": "width"}, "leaves no wall in a thickness of 30 mm"),
        ({"hole_length": 60}, {}, "the hole length of 60 mm leaves no end in a length of 60 mm"),
        ({"far_hole_width": 45}, {}, "the far hole width of 45 mm leaves no wall"),
        ({"hole_length": 20}, {"hole": "round"}, "a round hole has one diameter, not 20 mm by 16 mm"),
        ({"hole_width": 32}, {"hole": "teardrop"}, "a teardrop hole must be at least as long as it is wide"),
        ({"far_hole_length": 14}, {}, "a slot cannot lie along the bar at one mouth"),
    ],
)
def test_a_hole_that_cannot_be_is_refused(
    sizes: dict[str, float], options: dict[str, str], fault: str
) -> None:
    assert fault in refusal("eyed", {**EYE, **sizes}, options)


def test_a_ring_needs_a_wall() -> None:
    said = refusal("ring", {"outer_diameter": 80, "inner_diameter": 80, "thickness": 10})
    assert said == "an inner diameter of 80 mm leaves no wall in an outer diameter of 80 mm"


def test_a_socket_needs_a_bore() -> None:
    said = refusal("socket", {"mouth_diameter": 30, "end_diameter": 12, "wall": 6, "length": 80})
    assert said == "a wall of 6 mm leaves no bore in a diameter of 12 mm"


@pytest.mark.parametrize(
    ("stations", "fault"),
    [
        ((), "at least two stations"),
        (((0, 1, 1),), "at least two stations"),
        (((0.1, 1, 1), (1, 1, 1)), "the first station of a profile is at 0 and the last at 1"),
        (((0, 1, 1), (0.5, 1, 1), (0.5, 1, 1), (1, 1, 1)), "each station of a profile lies further along"),
        (((0, 0.9, 1), (1, 0.8, 1)), "the shares of width"),
        (((0, 1, 1), (1, 1, 1.2)), "the shares of thickness"),
        (((0, 1, 1), (0.5, 0, 1), (1, 1, 1)), "comes to nothing in width only at its ends"),
        (((0, math.nan, 1), (1, 1, 1)), "the shares of width"),
    ],
)
def test_stations_that_make_no_profile_are_refused(
    stations: tuple[tuple[float, float, float], ...], fault: str
) -> None:
    sizes = {"length": 100.0, "width": 30.0, "thickness": 20.0}
    assert fault in refusal("profile", sizes, stations=stations)


def test_stations_are_taken_off_a_drawing_in_any_unit() -> None:
    rows = [(2.0, 3.0, 2.0), (5.0, 6.0, 4.0), (12.0, 1.5, 1.0)]
    length, width, thickness, stations = stations_from_sizes(rows)
    assert (length, width, thickness) == (10.0, 6.0, 4.0)
    assert stations == ((0.0, 0.5, 0.5), (0.3, 1.0, 1.0), (1.0, 0.25, 0.25))
    head = make("profile", {"length": 100, "width": 60, "thickness": 40}, stations=stations)
    # Two frusta of similar sections, h/3·(A₁ + √(A₁A₂) + A₂) by hand: 30 mm from 600 to 2400,
    # then 70 mm to 150 mm².
    by_hand = 30 / 3 * (600 + 1200 + 2400) + 70 / 3 * (2400 + 600 + 150)
    assert head.volume_mm3() == pytest.approx(by_hand)


@pytest.mark.parametrize(
    ("rows", "fault"),
    [
        ([(0.0, 1.0, 1.0)], "at least two stations"),
        ([(0.0, 1.0, 1.0), (0.0, 1.0, 1.0)], "further along"),
        ([(0.0, 0.0, 1.0), (3.0, 0.0, 1.0)], "above zero"),
    ],
)
def test_a_drawing_without_a_profile_is_refused(rows: list[tuple[float, float, float]], fault: str) -> None:
    with pytest.raises(FormError, match=fault):
        stations_from_sizes(rows)


def test_a_size_is_asked_for_by_its_name() -> None:
    with pytest.raises(FormError, match="did you mean width"):
        make("flat", FLAT).size_mm("widths")
    with pytest.raises(FormError, match="did you mean width"):
        make("flat", FLAT).with_sizes({"widths": 3})


def test_long_nonsense_is_not_echoed_whole() -> None:
    with pytest.raises(FormError) as refused:
        make("flat", FLAT).size_mm("y" * 5000)
    assert len(str(refused.value)) < 300
