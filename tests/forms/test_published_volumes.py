"""Volumes, areas and lengths against published formulae and worked figures."""

from __future__ import annotations

import pytest
from scipy.special import ellipe

from coach.forms.eyed import Eyed
from coach.forms.hexagon import Hexagon
from coach.forms.holes import area_mm2, perimeter_mm
from coach.forms.octagon import Octagon
from coach.forms.round import Round
from coach.forms.round_taper import RoundTaper
from coach.forms.square import Square
from coach.forms.taper import Taper
from tests.made import make


def test_a_taper_is_a_prismatoid_and_not_the_average_of_its_ends() -> None:
    taper = make("taper", {"width": 30, "thickness": 10, "end_width": 50, "end_thickness": 3, "length": 80})
    # Prismatoid formula (Kern & Bland, Solid Mensuration, 1938, from memory) with the middle section
    # 40 × 6.5 = 260 mm²: 80/6·(300 + 4·260 + 150).
    assert taper.volume_mm3() == pytest.approx(19866.667, abs=1e-3)
    average_of_ends = 80 * (taper.end_area_mm2("start") + taper.end_area_mm2("finish")) / 2
    assert average_of_ends == pytest.approx(18000)
    assert taper.volume_mm3() != pytest.approx(average_of_ends, rel=0.05)


def test_the_middle_of_a_taper_has_the_mean_dimensions() -> None:
    taper = Taper(30, 10, 50, 3, 80)
    assert taper.section(40).area_mm2 == pytest.approx(40 * 6.5)  # mean dimensions, by hand


def test_a_frustum_of_a_cone() -> None:
    # V = π·L/12·(D² + D·d + d²), elementary mensuration; D 20, d 12, L 50.
    assert RoundTaper(20, 12, 50).volume_mm3() == pytest.approx(10262.54, abs=5e-3)


def test_a_frustum_of_a_square_pyramid() -> None:
    # V = L/3·(a² + a·b + b²), elementary mensuration; 20 to 8 over 60.
    assert Taper(20, 20, 8, 8, 60).volume_mm3() == pytest.approx(12480)


def test_a_wedge_with_an_edge_longer_than_its_base() -> None:
    # V = h·a/6·(2b + c), base b × a = 30 × 20, edge 50, height 60: elementary mensuration.
    assert Taper(30, 20, 50, 0, 60).volume_mm3() == pytest.approx(22000)


def test_an_octagon_fills_0_8284_of_the_square_on_its_flats() -> None:
    # 2(√2 − 1), elementary geometry.
    assert Octagon(1, 1).volume_mm3() == pytest.approx(0.828427, abs=1e-6)
    assert Octagon(25, 1).volume_mm3() == pytest.approx(517.77, abs=5e-3)


def test_a_hexagon_fills_0_8660_of_the_square_on_its_flats() -> None:
    # √3/2, elementary geometry; a nut of 30 mm has 779.42 mm² and is 34.64 mm over its corners.
    assert Hexagon(1, 1).volume_mm3() == pytest.approx(0.866025, abs=1e-6)
    assert Hexagon(30, 1).volume_mm3() == pytest.approx(779.42, abs=5e-3)
    corners = [x for x, _ in Hexagon(30, 1).outline()]
    assert max(corners) - min(corners) == pytest.approx(34.641, abs=1e-3)


def test_a_round_bar_of_the_same_metal_as_a_hexagon_is_five_per_cent_wider() -> None:
    # √(2·√3/π) = 1.0501, elementary geometry.
    assert Round(1, 1).solved("diameter", Hexagon(1, 1).volume_mm3()).diameter_mm == pytest.approx(
        1.0501, abs=5e-5
    )


def test_a_square_bar_grows_by_its_corners_when_made_octagonal_or_round() -> None:
    bar = Square(25, 100)
    # 1/0.828427 and 4/π, elementary geometry.
    assert Octagon(25, 1).solved("length", bar.volume_mm3()).length_mm == pytest.approx(120.71, abs=5e-3)
    assert Round(25, 1).solved("length", bar.volume_mm3()).length_mm == pytest.approx(127.32, abs=5e-3)


def test_a_stadium_slot() -> None:
    # A = (L − c)·c + π·c²/4 and P = 2(L − c) + π·c, elementary geometry; 38 × 12 and 30 × 10.
    assert area_mm2("slot", 38, 12) == pytest.approx(425.097, abs=1e-3)
    assert perimeter_mm("slot", 38, 12) == pytest.approx(89.699, abs=1e-3)
    assert area_mm2("slot", 30, 10) == pytest.approx(278.54, abs=5e-3)


def test_a_slot_is_the_same_along_the_bar_or_across_it() -> None:
    assert area_mm2("slot", 12, 38) == area_mm2("slot", 38, 12)
    assert perimeter_mm("slot", 12, 38) == perimeter_mm("slot", 38, 12)


def test_an_oval_eye_of_one_inch_by_three_quarters() -> None:
    # A = π·a·b; perimeter by Ramanujan's second approximation (Quarterly Journal of Mathematics 45 (1914)
    # 350, from memory). The size is that of hammer eyes in the US Simplified Practice Recommendation for
    # forged tools (seen second-hand).
    assert area_mm2("oval", 25.4, 19.05) == pytest.approx(380.03, abs=5e-3)
    assert perimeter_mm("oval", 25.4, 19.05) == pytest.approx(70.179, abs=1e-3)


def test_a_long_oval_has_the_exact_perimeter() -> None:
    # The complete elliptic integral of the second kind, by scipy: 4·a·E(1 − (b/a)²).
    exact = 2 * 50 * float(ellipe(1 - (20 / 50) ** 2))
    assert exact == pytest.approx(115.0656, abs=5e-5)
    assert perimeter_mm("oval", 50, 20) == pytest.approx(exact, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "sizes", "kg_per_m"),
    [
        # Nominal masses of bars at 7.85 kg/dm³ (the basis of EN 10058, 10059 and 10060, from memory).
        ("round", {"diameter": 12}, 0.888),
        ("round", {"diameter": 25}, 3.853),
        ("round", {"diameter": 50}, 15.413),
        ("square", {"side": 20}, 3.140),
        ("square", {"side": 40}, 12.560),
        ("octagon", {"across_flats": 25}, 4.064),
        ("octagon", {"across_flats": 40}, 10.405),
        # EN 10061 (from memory), whose table has three figures.
        ("hexagon", {"across_flats": 13}, 1.149),
        ("hexagon", {"across_flats": 22}, 3.290),
        ("hexagon", {"across_flats": 36}, 8.811),
        ("flat", {"width": 40, "thickness": 10}, 3.140),
        ("flat", {"width": 60, "thickness": 12}, 5.652),
    ],
)
def test_a_metre_of_bar_has_its_tabled_mass(kind: str, sizes: dict[str, float], kg_per_m: float) -> None:
    metre = make(kind, {**sizes, "length": 1000})
    assert metre.volume_mm3() * 7.85e-6 == pytest.approx(kg_per_m, abs=6e-4)


def test_an_eye_spread_from_a_slitted_block_has_the_reckoned_cheeks() -> None:
    # A block 38 × 38 × 40 less a 30 × 10 stadium slug 6 thick, opened to an oval eye 32 × 20 at the same
    # depth and length. From the volume balance, outer width (A_eye + V/T)/L = 49.47 and cheeks 14.73 each.
    metal_mm3 = 38 * 38 * 40 - 6 * area_mm2("slot", 30, 10)
    assert metal_mm3 == pytest.approx(56088.8, abs=0.05)
    eye = make(
        "eyed",
        {"width": 60, "thickness": 38, "length": 40, "hole_length": 32, "hole_width": 20},
        {"hole": "oval"},
    )
    settled = eye.solved("width", metal_mm3)
    assert isinstance(settled, Eyed)
    assert settled.width_mm == pytest.approx(49.47, abs=5e-3)
    assert (settled.width_mm - settled.hole_width_mm) / 2 == pytest.approx(14.73, abs=5e-3)


@pytest.mark.parametrize(
    ("kind", "sizes", "per_metre"),
    [
        # Surface over volume of long bars: 4/d round and square, 2(b + t)/(b·t) flat; the flat 40 × 6 gives
        # 383.33 per metre (the section factor of EN 1993-1-2, elementary).
        ("round", {"diameter": 20}, 200.0),
        ("square", {"side": 20}, 200.0),
        ("flat", {"width": 40, "thickness": 6}, 383.33),
    ],
)
def test_the_section_factor_of_a_long_bar(kind: str, sizes: dict[str, float], per_metre: float) -> None:
    bar = make(kind, {**sizes, "length": 100})
    assert 1000 * bar.side_surface_mm2() / bar.volume_mm3() == pytest.approx(per_metre, abs=5e-3)
