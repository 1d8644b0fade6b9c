"""A square corner is cut by the metal that it holds, and told how it gets it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from coach.reckoner.length import bend_length
from coach.telling.words import write


def test_an_angle_with_a_square_corner_has_the_area_of_its_plan() -> None:
    plan = Polygon([(0, 0), (100, 0), (100, 10), (10, 10), (10, 60), (0, 60)])
    assert bend_length([100.0, 60.0], 0.0, 90.0, 10.0).length.value == pytest.approx(plan.area / 10.0)


@given(st.floats(20.0, 150.0), st.floats(3.0, 20.0))
def test_a_corner_of_any_angle_has_the_area_of_its_plan(angle: float, thick: float) -> None:
    leg = 500.0
    turned = math.radians(angle)
    out = (math.cos(turned), math.sin(turned))
    inward = thick * math.tan(turned / 2.0)  # from the corner outside to that inside, along a leg
    far = (leg * out[0], leg * out[1])
    near = (far[0] - thick * out[1], far[1] + thick * out[0])
    corner = (-inward, thick)
    plan = Polygon([(-leg, 0), (0, 0), far, near, corner, (-leg, thick)])
    found = bend_length([leg, leg], 0.0, angle, thick).length.value
    assert found == pytest.approx(plan.area / thick, rel=1e-9)


def test_a_square_corner_tells_how_it_gets_its_metal() -> None:
    # FAO AH635E09: 12 mm flat is upset to one and a half times its thickness where it is bent square, and a
    # quarter of the thickness, 3 mm, is added to the outside size for each bend.
    upset, added = (write(one) for one in bend_length([120.0, 60.0], 0.0, 90.0, 12.0).remarks)
    assert "upset the bar there to about 18 mm" in upset
    assert "3 mm, for each corner" in added
