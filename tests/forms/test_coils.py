"""Coils: how much bar is wound up in them, against a mesh, an integral and a sum by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh

from coach.forms import FormError
from coach.forms.coil import Coil
from tests.forms.solids import FACETS, surface_mm2
from tests.made import make

COILS = [Coil(18, 11, 8, 96), Coil(60, 12, 10, 55), Coil(8, 30, 6, 70)]


def tube(coil: Coil) -> trimesh.Trimesh:
    """Circles laid square to a helix, point by point, and joined: nothing of the form but its sizes."""
    middle, rise = (coil.inside_mm + coil.diameter_mm) / 2, coil.pitch_mm / (2 * math.pi)
    angles = np.linspace(0, 2 * math.pi * coil.turns, round(coil.turns * FACETS))
    steep = math.hypot(middle, rise)
    cosine, sine = np.cos(angles), np.sin(angles)
    line = np.stack([middle * cosine, middle * sine, rise * angles], axis=1)
    outward = np.stack([cosine, sine, np.zeros_like(angles)], axis=1)
    upward = np.stack(
        [-rise * sine / -steep, rise * cosine / -steep, np.full_like(angles, middle / steep)], axis=1
    )
    around = np.linspace(0, 2 * math.pi, 180, endpoint=False)
    rings = line[:, None] + coil.diameter_mm / 2 * (
        np.cos(around)[None, :, None] * outward[:, None] + np.sin(around)[None, :, None] * upward[:, None]
    )
    count, sides = rings.shape[:2]
    points = np.concatenate([rings.reshape(-1, 3), line[[0, -1]]])
    places = np.arange(count * sides).reshape(count, sides)
    here, there = places[:-1], places[1:]
    turned, turned_there = np.roll(here, -1, axis=1), np.roll(there, -1, axis=1)
    sheets = [np.stack([here, turned, there], -1), np.stack([turned, turned_there, there], -1)]
    first, last = places[0], places[-1]
    caps = [
        np.stack([np.full(sides, count * sides), np.roll(first, -1), first], -1),
        np.stack([np.full(sides, count * sides + 1), last, np.roll(last, -1)], -1),
    ]
    return trimesh.Trimesh(
        points, np.concatenate([one.reshape(-1, 3) for one in (*sheets, *caps)]), process=False
    )


@pytest.mark.parametrize("coil", COILS)
def test_it_holds_and_bares_as_much_as_a_tube_laid_along_its_helix(coil: Coil) -> None:
    solid = tube(coil)
    assert solid.is_watertight
    # A ring of 180 corners lacks 0.02 % of its circle.
    assert coil.volume_mm3() == pytest.approx(abs(solid.volume), rel=4e-4)
    assert surface_mm2(coil) == pytest.approx(solid.area, rel=4e-4)


@pytest.mark.parametrize("coil", COILS)
def test_it_is_as_long_and_as_wide_as_a_rule_laid_over_it_reads(coil: Coil) -> None:
    low, high = tube(coil).bounds
    assert high[2] - low[2] == pytest.approx(coil.wound_length_mm, abs=0.01)
    if coil.turns > 1.5:
        assert high[0] - low[0] == pytest.approx(coil.inside_mm + 2 * coil.diameter_mm, abs=0.02)


def test_the_bar_of_a_coil_is_what_a_sum_by_hand_says() -> None:
    # By hand: a middle circle of 26 mm is 81.68 mm round; 11 mm on, it is √(81.68² + 11²) = 82.42 mm.
    # The bar leans: its ends reach 8 · 81.68/82.42 = 7.93 mm beyond: (96 - 7.93)/11 = 8.006 turns, 659.9 mm
    # of bar.
    assert COILS[0].turns == pytest.approx(8.006, abs=1e-3)
    assert COILS[0].length_mm == pytest.approx(659.9, abs=0.1)


def test_longer_metal_is_wound_further() -> None:
    coil = COILS[0]
    more = coil.solved("wound_length", coil.volume_mm3() * 1.5)
    assert more.turns == pytest.approx(1.5 * coil.turns, rel=1e-9)
    assert more.inside_mm == coil.inside_mm


@pytest.mark.parametrize(
    ("sizes", "says"),
    [
        ({"pitch": 6, "wound length": 60}, "lie in each other"),
        ({"pitch": 11, "wound length": 18}, "less than one turn"),
    ],
)
def test_what_no_bar_can_be_wound_to_is_refused(sizes: dict[str, float], says: str) -> None:
    with pytest.raises(FormError, match=says):
        make("coil", {**sizes, "inside": 18, "diameter": 8})
