"""The shapes of holes against shapely's and scipy's own reckoning."""

from __future__ import annotations

import pytest
from scipy.integrate import quad
from shapely.geometry import Polygon

from coach.forms.holes import SHAPES, area_mm2, half_width_mm, loop_mm, perimeter_mm, volume_mm3, wall_mm2
from tests.forms.solids import MESH_TOLERANCE, hole_polygon

SIZES = [(38.0, 12.0), (22.0, 22.0), (30.0, 28.0), (60.0, 8.0)]
CASES = [(shape, *size) for shape in SHAPES for size in SIZES] + [("slot", 12.0, 38.0), ("oval", 12.0, 38.0)]


@pytest.mark.parametrize(("shape", "length", "width"), CASES)
def test_a_hole_has_the_area_and_the_edge_of_its_polygon(shape: str, length: float, width: float) -> None:
    polygon = hole_polygon(shape, length, width)
    assert area_mm2(shape, length, width) == pytest.approx(polygon.area, rel=MESH_TOLERANCE)
    assert perimeter_mm(shape, length, width) == pytest.approx(polygon.length, rel=MESH_TOLERANCE)


@pytest.mark.parametrize(("shape", "length", "width"), CASES)
def test_the_drawn_loop_of_a_hole_is_its_polygon(shape: str, length: float, width: float) -> None:
    loop = Polygon(loop_mm(shape, length, width))
    polygon = hole_polygon(shape, length, width)
    assert loop.is_valid
    assert loop.bounds == pytest.approx(polygon.bounds, rel=2e-3)
    # 96 points, set close where the edge turns: 0.3 % of the area is finer than any picture shows.
    assert loop.symmetric_difference(polygon).area < 3e-3 * polygon.area


@pytest.mark.parametrize(("shape", "length", "width"), CASES)
def test_the_opening_across_a_hole_adds_up_to_its_area(shape: str, length: float, width: float) -> None:
    bends = sorted({0.0, (width - length) / 2, (length - width) / 2})
    area = quad(
        lambda along: 2 * half_width_mm(shape, length, width, along),
        -length / 2,
        length / 2,
        points=bends,
        limit=200,
    )[0]
    assert area == pytest.approx(area_mm2(shape, length, width), rel=1e-6)
    assert half_width_mm(shape, length, width, length / 2 + 0.001) == 0.0


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("far", [(30.4, 9.6), (38.0, 10.0), (34.0, 14.0), (45.6, 12.0)])
def test_a_tapered_hole_is_the_sum_of_its_slices(shape: str, far: tuple[float, float]) -> None:
    near, depth = (38.0, 12.0), 30.0

    def slice_mm2(share: float) -> float:
        return area_mm2(shape, *(a + share * (b - a) for a, b in zip(near, far, strict=True)))

    summed = depth * quad(slice_mm2, 0, 1)[0]
    assert volume_mm3(shape, near, far, depth) == pytest.approx(
        summed, rel=3e-4 if shape == "teardrop" else 1e-12
    )


def test_a_teardrop_that_turns_nearly_round_is_right_to_0_03_percent() -> None:
    near, far = (30.0, 28.0), (36.0, 28.0)
    summed = 30 * quad(lambda share: area_mm2("teardrop", 30 + 6 * share, 28), 0, 1)[0]
    assert volume_mm3("teardrop", near, far, 30) == pytest.approx(summed, rel=3e-4)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_hole_narrows_to_its_straight_wall_without_a_jump(shape: str) -> None:
    straight = wall_mm2(shape, (38, 12), (38, 12), 30)
    assert wall_mm2(shape, (38, 12), (38, 12 + 1e-6), 30) == pytest.approx(straight, rel=1e-5)


def test_a_teardrop_as_wide_as_it_is_long_is_a_circle() -> None:
    assert area_mm2("teardrop", 20, 20) == area_mm2("round", 20, 20)
    assert area_mm2("teardrop", 20 + 1e-9, 20) == pytest.approx(area_mm2("round", 20, 20))
    assert perimeter_mm("teardrop", 20 + 1e-9, 20) == pytest.approx(perimeter_mm("round", 20, 20), rel=1e-4)
