"""Sections: their areas, their outlines and the volume they add up to."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from shapely.geometry import Polygon
from shapely.ops import unary_union

from coach.forms import CrossSection, Form, FormError
from coach.forms.row_of_holes import RowOfHoles
from tests.forms.samples import eyed_forms, forms
from tests.made import make

# A 72-sided polygon lacks (2π/72)²/6 = 0.127 % of its circle.
POLYGON_TOLERANCE = 1.5e-3
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(40)


def polygon_area(section: CrossSection) -> float:
    """The area of the outline less its holes, by shapely."""
    if not section.area_mm2:
        return 0.0  # a round plate ends in a point
    outline = Polygon(section.outline)
    assert outline.is_valid
    return float(outline.difference(unary_union([Polygon(hole) for hole in section.holes])).area)


@given(forms())
@settings(max_examples=150, deadline=None)
def test_a_section_has_the_area_of_its_outline_less_its_holes(form: Form) -> None:
    for share in (0.0, 0.31, 0.5, 1.0):
        section = form.section(share * form.length_mm)
        outline = Polygon(section.outline).area
        assert polygon_area(section) == pytest.approx(section.area_mm2, abs=POLYGON_TOLERANCE * outline)


@given(forms())
@settings(max_examples=150, deadline=None)
def test_an_outline_is_centred_on_the_axis(form: Form) -> None:
    west, south, east, north = Polygon(form.section(form.length_mm / 3).outline).bounds
    assert west == pytest.approx(-east)
    assert south == pytest.approx(-north)


def places(form: Form) -> list[float]:
    """Where the run of sections may bend or jump, as shares of the length."""
    if form.KIND == "profile":
        return [station[0] for station in form.stations]  # type: ignore[attr-defined]
    if form.KIND in ("bowl", "rivet", "uneven fork"):
        return sorted({0.0, *form.landmarks(), 1.0})
    if isinstance(form, RowOfHoles):
        half, flat = form.near_mm[0] / 2, max(form.near_mm[0] - form.near_mm[1], 0.0) / 2
        edges = [centre + side for centre in form.centres_mm() for side in (-half, -flat, flat, half)]
        return [0.0, *(edge / form.length_mm for edge in edges), 1.0]
    if form.KIND != "eyed":
        return [0.0, 1.0]
    sizes = form.sizes_mm()
    shares = {0.0, 1.0}
    for mouth in ("", "far_"):
        length, width = sizes[f"{mouth}hole_length"], sizes[f"{mouth}hole_width"]
        half = length / 2 / form.length_mm
        shares |= {0.5 - half, 0.5 + half}
        flat = (length - width) / 2 / form.length_mm
        shares |= {0.5 - abs(flat), 0.5 + abs(flat)}
        shares.add(0.5 + (width - length) / 2 / form.length_mm)
    return sorted(share for share in shares if 0.0 <= share <= 1.0)


def metal_by_sections(form: Form) -> float:
    """The areas of many sections, summed by Gauss's rule between the places where they bend."""
    total = 0.0
    stops = places(form)
    for start, finish in pairwise(stops):
        if finish - start < 1e-9:
            continue
        # Sections open as a square root at a round end: cosine spacing takes that in its stride.
        turn, weight = math.pi / 2 * (_NODES + 1), math.pi / 2 * _WEIGHTS
        shares = start + (finish - start) * (1 - np.cos(turn)) / 2
        areas = np.array([form.section(float(share) * form.length_mm).area_mm2 for share in shares])
        total += float(np.sum(weight * areas * np.sin(turn))) * (finish - start) / 2 * form.length_mm
    return total


@given(forms())
@settings(max_examples=60, deadline=None)
def test_sections_add_up_to_the_volume(form: Form) -> None:
    # A tapered hole's sections are drawn as 32 chords: 0.2 % of the hole is allowed for them. A twisted taper
    # is summed by Simpson's rule, to a millionth as it says.
    within = {"eyed": 2e-3, "twisted taper": 1e-6}.get(form.KIND, 1e-9)
    assert metal_by_sections(form) == pytest.approx(form.volume_mm3(), rel=within)


@given(eyed_forms(tapered=False))
@settings(max_examples=40, deadline=None)
def test_sections_of_a_straight_hole_add_up_closely(form: Form) -> None:
    assert metal_by_sections(form) == pytest.approx(form.volume_mm3(), rel=1e-5)


@given(forms())
@settings(max_examples=60, deadline=None)
def test_the_first_and_last_sections_are_the_ends(form: Form) -> None:
    if form.KIND in {"ring", "round ring", "link"}:
        assert form.end_area_mm2("start") == form.end_area_mm2("finish") == 0.0
        return
    assert form.section(0).area_mm2 == pytest.approx(form.end_area_mm2("start"))
    assert form.section(form.length_mm).area_mm2 == pytest.approx(form.end_area_mm2("finish"))


@pytest.mark.parametrize("at_mm", [-1.0, 100.5, float("nan")])
def test_there_is_no_section_off_the_end(at_mm: float) -> None:
    with pytest.raises(FormError, match="is not on a flat form that is 100 mm long"):
        make("flat", {"width": 20, "thickness": 5, "length": 100}).section(at_mm)


def test_an_eye_through_the_thickness_parts_the_section_into_two_cheeks_side_by_side() -> None:
    eye = make("eyed", {"width": 50, "thickness": 30, "length": 60, "hole_length": 36, "hole_width": 20})
    middle = eye.section(30)
    assert middle.area_mm2 == pytest.approx(30 * (50 - 20))
    west, south, east, north = Polygon(middle.holes[0]).bounds
    assert (west, south, east, north) == pytest.approx((-10, -15, 10, 15))
    assert eye.section(2).holes == ()


def test_an_eye_through_the_width_parts_the_section_above_and_below() -> None:
    sizes = {"width": 30, "thickness": 50, "length": 60, "hole_length": 36, "hole_width": 20}
    middle = make("eyed", sizes, {"through": "width"}).section(30)
    assert Polygon(middle.holes[0]).bounds == pytest.approx((-15, -10, 15, 10))


def test_the_near_mouth_of_a_tapered_hole_is_on_the_positive_side() -> None:
    sizes = {"width": 50, "thickness": 30, "length": 60, "hole_length": 36, "hole_width": 20}
    middle = make("eyed", {**sizes, "far_hole_length": 30, "far_hole_width": 16}).section(30)
    at_face = {round(y): max(x for x, other in middle.holes[0] if other == y) for _, y in middle.holes[0]}
    assert at_face[15] == pytest.approx(10)
    assert at_face[-15] == pytest.approx(8)


def test_a_section_cut_where_only_one_mouth_reaches_shows_a_hole_through_part_of_the_depth() -> None:
    sizes = {"width": 50, "thickness": 30, "length": 60, "hole_length": 40, "hole_width": 20}
    tapered = make("eyed", {**sizes, "far_hole_length": 30, "far_hole_width": 20}, {"hole": "rectangle"})
    # 18 mm from the middle the hole is still open where its half length 20 − 5·share is above 18: share 0.4.
    section = tapered.section(30 + 18)
    assert section.area_mm2 == pytest.approx(50 * 30 - 0.4 * 30 * 20)
    other_way = make(
        "eyed", {**tapered.sizes_mm(), "hole_length": 30, "far_hole_length": 40}, {"hole": "rectangle"}
    )
    assert other_way.section(30 + 18).area_mm2 == pytest.approx(50 * 30 - 0.4 * 30 * 20)


def test_a_profile_takes_its_section_between_its_own_stations() -> None:
    form = make(
        "profile",
        {"length": 100, "width": 40, "thickness": 20},
        stations=[(0, 1, 0.5), (0.4, 0.5, 1), (1, 0.75, 0.5)],
    )
    assert form.section(40).area_mm2 == pytest.approx(20 * 20)
    assert form.section(70).area_mm2 == pytest.approx(25 * 15)  # half-way between 20 × 20 and 30 × 10
