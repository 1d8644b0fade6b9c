"""Tests of the wedge that an edge is."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.finish.edge import (
    EDGE_ANGLES,
    angle_deg,
    bevel_face_mm,
    bevel_on_taper,
    bevel_width_mm,
    ground_mm2,
)
from coach.quantities.refusal import OutOfRange

edges_mm = st.floats(min_value=0, max_value=3)
angles_deg = st.floats(min_value=5, max_value=80)
sizes_mm = st.floats(min_value=0.5, max_value=60)


def test_a_wedge_of_twenty_five_degrees_ten_millimetres_back() -> None:
    # h = e + 2 x tan(α/2) with e 0.5, x 10, worked apart from the program.
    assert angle_deg(0.5, 4.934, 10) == pytest.approx(25, abs=3e-3)
    assert bevel_width_mm(25, 4.934, 0.5) == pytest.approx(10, abs=2e-3)


def test_a_chisel_ground_on_one_side_has_its_whole_angle_there() -> None:
    # tan 30° = 4/x; a right-angled triangle of 30° has its slope twice its height.
    assert bevel_width_mm(30, 4, sides=1) == pytest.approx(4 * math.sqrt(3), rel=1e-12)
    assert bevel_face_mm(30, 4, sides=1) == pytest.approx(8, rel=1e-12)


def test_both_faces_of_a_sixty_degree_edge_are_as_wide_as_it_is_thick() -> None:
    # An equilateral triangle.
    assert bevel_face_mm(60, 12) == pytest.approx(12, rel=1e-12)


@pytest.mark.parametrize("own_deg", [1.0, 12.0, 30.0])
@pytest.mark.parametrize("flat", [True, False])
def test_a_bevel_on_a_taper_ends_where_its_face_meets_the_bodys(own_deg: float, flat: bool) -> None:
    """Where two lines cross, worked apart from the program: from apex and corner."""
    edge_mm, angle = 3.0, 45.0
    let_be = 0.0 if flat else math.tan(math.radians(own_deg / 2))
    other = math.tan(math.radians(own_deg if flat else own_deg / 2))
    along_mm, face_mm = bevel_on_taper(angle, edge_mm, own_deg, 1, flat=flat)
    # The face that is let be falls from the apex (0, 0); the body's other one rises from (0, edge).
    x, y = along_mm, edge_mm + other * along_mm
    assert math.hypot(x, y) == pytest.approx(face_mm, rel=1e-9)
    opening = math.degrees(math.atan2(y, x) + math.atan2(let_be * x, x))
    assert opening == pytest.approx(angle, rel=1e-9)


def test_a_bevel_on_parallel_faces_is_the_plain_one_and_one_below_the_bodys_own_angle_is_refused() -> None:
    for sides in (1, 2):
        plain = bevel_width_mm(30, 4, sides=sides), bevel_face_mm(30, 4, sides=sides)
        assert bevel_on_taper(30, 4, 0, sides, flat=False) == pytest.approx(plain)
    with pytest.raises(OutOfRange):
        bevel_on_taper(25, 3, 37, 2, flat=False)


@given(edges_mm, angles_deg, sizes_mm)
def test_angle_and_width_undo_each_other(edge_mm: float, angle: float, back_mm: float) -> None:
    thick_mm = edge_mm + 2 * back_mm * math.tan(math.radians(angle) / 2)
    assert angle_deg(edge_mm, thick_mm, back_mm) == pytest.approx(angle, rel=1e-9)
    assert bevel_width_mm(angle, thick_mm, edge_mm) == pytest.approx(back_mm, rel=1e-9)


def test_grinding_a_flat_bar_takes_the_triangles_beside_the_edge() -> None:
    # w (t - e)/2: the displaced area of the bevel 40, 6, 1, 20, forged or ground.
    assert ground_mm2(6, angle_deg(1, 6, 20), 1) == pytest.approx(50, rel=1e-12)


def test_a_bar_too_thin_for_the_edge_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"too thin for an edge of 2 mm"):
        ground_mm2(1, 25, 2)


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1.0, 171.0, 0.0])
def test_an_angle_that_makes_no_edge_is_refused_in_one_sentence(wrong: float) -> None:
    asks: tuple[Callable[[], float], ...] = (
        lambda: bevel_width_mm(wrong, 4),
        lambda: bevel_face_mm(wrong, 4, sides=1),
        lambda: ground_mm2(6, wrong),
    )
    for ask in asks:
        with pytest.raises(OutOfRange) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -math.inf, -1.0])
def test_a_size_that_is_none_is_refused(wrong: float) -> None:
    asks: tuple[Callable[[], float], ...] = (
        lambda: angle_deg(0.5, wrong, 10),
        lambda: angle_deg(0.5, 4, wrong),
        lambda: angle_deg(wrong, 4, 10),
        lambda: bevel_width_mm(25, wrong),
        lambda: bevel_width_mm(25, 4, wrong),
        lambda: ground_mm2(6, 25, wrong),
    )
    for ask in asks:
        with pytest.raises(OutOfRange):
            ask()


def test_an_edge_as_thick_as_what_is_behind_it_is_refused() -> None:
    with pytest.raises(OutOfRange, match="not thinner"):
        bevel_width_mm(25, 4, 4)
    with pytest.raises(OutOfRange, match="not thinner"):
        angle_deg(4, 3, 10)


def test_a_usual_angle_says_where_it_comes_from() -> None:
    # Hatchets and axes 20 to 30°, chisels 25 to 30°, froe about 30° (from memory).
    usual = {row.tool: (row.low.value, row.high and row.high.value) for row in EDGE_ANGLES}
    assert usual["carving hatchet"] == (25.0, 25.0)
    assert usual["chisel"] == (25.0, 30.0)
    assert usual["splitting axe"] == (30.0, None)
    assert all("(from memory)" in row.source for row in EDGE_ANGLES)
    assert all(row.high is None or row.low.value <= row.high.value for row in EDGE_ANGLES)


@given(st.lists(angles_deg, min_size=2, max_size=5))
def test_a_keener_edge_reaches_farther_back(angles: list[float]) -> None:
    widths = [bevel_width_mm(angle, 6, 0.5) for angle in sorted(angles)]
    assert all(keener >= blunter for keener, blunter in pairwise(widths))
