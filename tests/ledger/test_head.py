"""The finished head balances where textbook centroids put it."""

from __future__ import annotations

import pytest

from coach.ledger.head import head
from tests.ledger.recipes import planned

#: Two bars of one section beside an eye: the balance lies where the lengths put it.
EVEN = """
title: Bar with an eye
pieces: {body: {metal: mild steel, stock: {form: flat, width: 30, thickness: 20}, zones: [near, eye, far]}}
drawing:
  near: {form: flat, width: 30, thickness: 20, length: 40}
  eye: {form: eyed, hole: rectangle, width: 30, thickness: 20, length: 30, hole length: 20, hole width: 10,
        take up: length}
  far: {form: flat, width: 30, thickness: 20, length: 80}
steps:
  - {do: punch, zone: eye, hole: rectangle, to: drawing, heats: 1, free: length}
"""
STEEL_G_MM3 = 7.85e-3  # EN 1993-1-1 §3.2.2


def test_a_bar_with_an_eye_balances_where_moments_about_the_eye_are_even() -> None:
    found = head(planned(EVEN))
    assert found is not None
    near, eye, far = 30 * 20 * 40, 30 * 20 * 30 - 20 * 10 * 20, 30 * 20 * 80
    # Moments about the middle of the eye: half the eye and half of each bar away.
    moment = far * (15 + 40) - near * (15 + 20)
    assert found.balance is not None
    assert found.balance.value == pytest.approx(moment / (near + eye + far))
    assert found.towards == "far"
    assert found.mass.value == pytest.approx((near + eye + far) * STEEL_G_MM3)


def test_a_taper_balances_where_the_frustum_of_a_pyramid_does() -> None:
    plan = planned(
        EVEN.replace(
            "  far: {form: flat, width: 30, thickness: 20, length: 80}",
            "  far: {form: taper, width: 30, thickness: 20, end width: 15, end thickness: 10, length: 80}",
        ).replace("steps:\n", "steps:\n  - {do: taper, zone: far, to: drawing, heats: 1}\n")
    )
    found = head(plan)
    assert found is not None
    near, eye = 30 * 20 * 40, 30 * 20 * 30 - 20 * 10 * 20
    big, small, h = 600.0, 150.0, 80.0
    mean = (big * small) ** 0.5
    far = h / 3 * (big + mean + small)
    # Centroid of a frustum above its larger base: h/4 (A1 + 2 √(A1 A2) + 3 A2) / (A1 + √(A1 A2) + A2), Beer &
    # Johnston, Vector Mechanics for Engineers, centroids of volumes (from memory).
    centre = h / 4 * (big + 2 * mean + 3 * small) / (big + mean + small)
    expected = (far * (15 + centre) - near * 35) / (near + eye + far)
    assert found.balance is not None
    assert found.balance.value == pytest.approx(abs(expected), rel=1e-9)


def test_a_piece_without_an_eye_has_a_mass_and_no_balance() -> None:
    plain = """
title: Bar
pieces: {bar: {metal: mild steel, stock: {form: square, side: 20}}}
drawing: {bar: {form: square, side: 20, length: 100}}
steps: [{do: inspect, zone: bar}]
"""
    found = head(planned(plain))
    assert found is not None
    assert found.balance is None
    assert found.mass.value == pytest.approx(
        100 * 3.14, rel=1e-9
    )  # 3.14 kg/m, EN 10059 nominal masses (from memory)


def test_loose_pieces_are_no_head() -> None:
    loose = """
title: Two bars
pieces:
  one: {metal: mild steel, stock: {form: square, side: 20}}
  two: {metal: mild steel, stock: {form: square, side: 20}}
drawing: {one: {form: square, side: 20, length: 100}, two: {form: square, side: 20, length: 100}}
steps: [{do: inspect, zone: one}]
"""
    assert head(planned(loose)) is None
