"""Tests of where a head balances."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from coach.finish.balance import (
    Part,
    Prism,
    balance_mm,
    mass_g,
    moment_g_mm,
    part_of,
    prismatoid,
    sides_of,
)
from coach.finish.edge import FinishError

sizes_mm = st.floats(min_value=1, max_value=80)
places_mm = st.floats(min_value=-300, max_value=300)
tools = st.lists(st.builds(Part, st.floats(min_value=1, max_value=3000), places_mm), min_size=1, max_size=6)


@given(sizes_mm, sizes_mm, sizes_mm)
def test_a_frustum_has_its_middle_where_the_textbook_says(large: float, small: float, height: float) -> None:
    # h/4 (R² + 2Rr + 3r²)/(R² + Rr + r²) from the end of radius R; elementary geometry.
    found = prismatoid(math.pi * large**2, math.pi * ((large + small) / 2) ** 2, math.pi * small**2, height)
    base = large**2 + large * small + small**2
    assert found.centre_mm == pytest.approx(
        height / 4 * (large**2 + 2 * large * small + 3 * small**2) / base, rel=1e-9
    )
    assert found.volume_mm3 == pytest.approx(math.pi * height / 3 * base, rel=1e-9)


def test_a_published_taper_keeps_its_volume() -> None:
    # 30 × 10 to 50 × 3 over 80 mm: 19 866.667 mm³ by the prismatoid rule, not 18 000 by the mean of the ends.
    assert prismatoid(300, 40 * 6.5, 150, 80).volume_mm3 == pytest.approx(19866.667, abs=1e-3)


@given(sizes_mm, sizes_mm, sizes_mm, sizes_mm, sizes_mm)
def test_a_tapered_bar_has_the_middle_of_its_mesh(
    width: float, thickness: float, end_width: float, end_thickness: float, length: float
) -> None:
    corners = [
        (x, side_w * w / 2, side_t * t / 2)
        for x, w, t in ((0.0, width, thickness), (length, end_width, end_thickness))
        for side_w in (-1, 1)
        for side_t in (-1, 1)
    ]
    quads = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    # A side that twists in neither direction is flat, so each may be cut into two triangles.
    faces = [face for a, b, c, d in quads for face in ((a, b, c), (a, c, d))]
    mesh = trimesh.Trimesh(np.array(corners), np.array(faces), process=False)
    found = prismatoid(
        width * thickness,
        (width + end_width) * (thickness + end_thickness) / 4,
        end_width * end_thickness,
        length,
    )
    assert found.volume_mm3 == pytest.approx(abs(float(mesh.volume)), rel=1e-6)
    assert found.centre_mm == pytest.approx(float(mesh.center_mass[0]), rel=1e-6)


@given(tools, places_mm)
def test_nothing_turns_about_the_place_of_balance(parts: list[Part], shift_mm: float) -> None:
    place_mm = balance_mm(parts)
    assert moment_g_mm(parts, place_mm) == pytest.approx(0, abs=1e-6 * mass_g(parts))
    assert min(p.centre_mm for p in parts) - 1e-9 <= place_mm <= max(p.centre_mm for p in parts) + 1e-9
    moved = [Part(p.mass_g, p.centre_mm + shift_mm) for p in parts]
    assert balance_mm(moved) == pytest.approx(place_mm + shift_mm, abs=1e-9)


@given(tools, places_mm)
def test_what_hangs_on_either_side_is_the_whole(parts: list[Part], eye_mm: float) -> None:
    sides = sides_of(parts, eye_mm)
    assert sides.before_g + sides.after_g == pytest.approx(mass_g(parts))
    assert sides.turns_g_mm == pytest.approx(moment_g_mm(parts, eye_mm))


def test_a_part_on_the_eye_itself_hangs_half_on_each_side() -> None:
    sides = sides_of([Part(100, 0), Part(50, 20)], 0)
    assert (sides.before_g, sides.after_g, sides.turns_g_mm) == (50, 100, 1000)


def test_a_face_and_a_peen_balance_over_the_eye_by_hand() -> None:
    # A face 40 × 40, 30 mm long, and a peen tapered from 40 × 40 to 40 × 0 over 60 mm, either side of an eye
    # 40 mm long: 48 000 mm³ with its middle at 35 mm against 48 000 mm³ at 20 + 60/3 mm.
    face = part_of(prismatoid(1600, 1600, 1600, 30), -20, runs_back=True)
    peen = part_of(prismatoid(1600, 800, 0, 60), 20)
    assert (face.mass_g, peen.mass_g) == pytest.approx((376.8, 376.8))
    assert (face.centre_mm, peen.centre_mm) == pytest.approx((-35, 40))
    assert balance_mm([face, peen]) == pytest.approx(2.5)


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_what_cannot_be_weighed_is_refused_in_one_sentence(wrong: float) -> None:
    for ask in (
        lambda: mass_g([]),
        lambda: balance_mm([Part(wrong, 0)]),
        lambda: balance_mm([Part(0, 0)]),
        lambda: balance_mm([Part(10, wrong)]),
        lambda: moment_g_mm([Part(10, 0)], wrong),
        lambda: sides_of([Part(10, 0)], wrong),
        lambda: prismatoid(wrong, 10, 10, 10),
        lambda: prismatoid(10, 10, 10, wrong),
        lambda: prismatoid(10, -1, 10, 10),
        lambda: prismatoid(0, 0, 0, 10),
        lambda: part_of(Prism(10, 5), wrong),
        lambda: part_of(Prism(10, 5), 0, wrong),
    ):
        with pytest.raises(FinishError) as refused:
            ask()
        assert str(refused.value).endswith(".")
        assert "\n" not in str(refused.value)
