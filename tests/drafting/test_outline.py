"""An outline in SVG becomes stations: known shapes keep their own widths, and nothing hostile is read."""

from __future__ import annotations

import math

import pytest

from coach.drafting.answers import CannotDraft, answers_of
from coach.drafting.draft import drafted
from coach.drafting.outline import LARGEST_BYTES, profile_line, stations_of
from coach.quantities.between import between
from coach.telling.words import write


def svg(inside: str) -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg">{inside}</svg>'.encode()


def widths(inside: str, long_mm: float = 100.0) -> list[tuple[float, float]]:
    return list(stations_of(svg(inside), long_mm))


@pytest.mark.parametrize(
    "inside",
    [
        '<path d="M0 0 H50 V10 H0 Z"/>',
        '<path d="m0,0 h50 v10 h-50 z"/>',
        '<polyline points="0,0 50,0 50,10 0,10 0,0"/>',
        '<g><polygon points="0 0 0 50 10 50 10 0"/></g>',
        '<path d="M0 0L50 0 50 10 0 10Z"/><path d="M1 1h2v2z"/>',
    ],
)
def test_a_rectangle_is_as_wide_all_along(inside: str) -> None:
    found = widths(inside)
    assert [x for x, _ in found] == [0.0, 100.0]
    assert [width for _, width in found] == pytest.approx([20.0, 20.0])


# A triangle of 50 x 10 drawn 100 mm long is as wide as it is far from its point: 20 mm at its end.
def test_a_triangle_grows_evenly() -> None:
    found = widths('<path d="M0 0 L50 -5 V5 Z"/>')
    for x in (20.0, 50.0, 90.0):
        assert between(found, x) == pytest.approx(0.2 * x, abs=0.35)


# A circle of radius 25: a chord at a distance is 2·√(r² − d²), by Pythagoras.
@pytest.mark.parametrize(
    "inside",
    [
        '<path d="M0 25 A25 25 0 0 1 50 25 A25 25 0 0 1 0 25 Z"/>',
        '<path d="M0 25 C0 11.19 11.19 0 25 0 S50 11.19 50 25 38.81 50 25 50 0 38.81 0 25Z"/>',
    ],
)
def test_a_circle_comes_out_by_pythagoras(inside: str) -> None:
    found = widths(inside, 50.0)
    for x in (5.0, 12.5, 25.0, 40.0):
        assert between(found, x) == pytest.approx(2.0 * math.sqrt(625.0 - (x - 25.0) ** 2), abs=0.8)


# A parabola through (0, 0), (25, -10) and (50, 0), as a quadratic Bézier curve with its handle at (25, -20).
@pytest.mark.parametrize("inside", ['<path d="M0 0 Q25 -20 50 0 Z"/>', '<path d="M0 0q25-20 50 0z"/>'])
def test_a_quadratic_curve_is_a_parabola(inside: str) -> None:
    found = widths(inside, 50.0)
    for x in (10.0, 25.0, 35.0):
        assert between(found, x) == pytest.approx(10.0 - 10.0 * ((x - 25.0) / 25.0) ** 2, abs=0.2)


def test_the_line_of_a_profile_says_each_station() -> None:
    line = profile_line(((0.0, 8.04), (50.0, 20.0), (100.0, 12.0)), 6.0)
    assert line == "profile 8 x 6, then 20 x 6 at 50, then 12 x 6 at 100, long 100"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (b"<svg", "no drawing in SVG"),
        (b"\x00\xff", "no drawing in SVG"),
        (svg("<text>x</text>"), "no outline"),
        (svg('<path d="M0 0 L50 0"/>'), "encloses nothing"),
        (svg('<path d="M0 0 L50"/>'), "cannot be read"),
        (svg('<path d="0 0"/>'), "cannot be read"),
        (svg('<g transform="rotate(9)"><path d="M0 0 H5 V5 Z"/></g>'), "transform"),
        (svg("<g>" * 60 + "</g>" * 60), "nested too deep"),
        (b"<!DOCTYPE svg [<!ENTITY a 'b'>]><svg>&a;</svg>", "document type or entities"),
        (b" " * (LARGEST_BYTES + 1), "larger than"),
        (svg('<polyline points="' + "1,2 " * 100_001 + '"/>'), "too many points"),
    ],
)
def test_what_is_no_outline_is_refused_in_one_sentence(text: bytes, told: str) -> None:
    with pytest.raises(CannotDraft) as refused:
        stations_of(text, 100.0)
    assert told in write(refused.value.words)


@pytest.mark.parametrize("belly", [40, 80, 120, 160])
def test_a_leaf_of_two_curves_is_proposed_and_its_line_is_not_too_long(belly: int) -> None:
    """By its formula the curve is 240·s along and 3·belly·s·(1 - s) high: 1.5·belly wide in its middle."""
    leaf = f"M 0 0 C 80 {belly} 160 {belly} 240 0 C 160 -{belly} 80 -{belly} 0 0 Z"
    stations = widths(f'<path d="{leaf}"/>', 240.0)
    line = profile_line(stations, 6.0)
    draft = drafted(
        answers_of({"name": "Leaf", "metal": "mild steel", "bar": "60 x 8", "zones": {"leaf": line}})
    )
    (leaf_drawn,) = draft.plan.recipe.drawing.values()
    assert leaf_drawn.limits["width"].nominal == pytest.approx(1.5 * belly, rel=0.01)
    form = draft.plan.stages["leaf"][-1].form_after
    for share in (0.1, 0.25, 0.4, 0.7, 0.85):
        wide = form.section(share * form.length_mm).area_mm2 / 6.0
        assert wide / form.size_mm("width") == pytest.approx(4.0 * share * (1.0 - share), abs=0.05)


def test_of_two_outlines_none_is_taken_silently_and_a_hole_or_a_mark_is_none() -> None:
    one = '<path d="M0 0 H50 V10 H0 Z"/>'
    with pytest.raises(CannotDraft) as refused:
        widths(one + '<path d="M0 30 H40 V38 H0 Z"/>')
    assert "There are 2 outlines in that drawing" in write(refused.value.words)
    for mark in ('<path d="M10 2 H40 V8 H10 Z"/>', '<path d="M0 20 H10"/>'):
        assert widths(one + mark) == widths(one)


@pytest.mark.parametrize(
    "outline",
    [
        '<path d="M0 0 H50 V10"/>',
        '<path d="M0 0 C20 -10 40 -10 50 0"/>',
        '<polyline points="0,0 50,0 50,10 0,10"/>',
    ],
)
def test_an_outline_that_is_open_is_not_closed_unsaid(outline: str) -> None:
    with pytest.raises(CannotDraft, match="open: join its two ends"):
        widths(outline)


def test_ends_that_nearly_meet_are_taken_as_one() -> None:
    found = widths('<path d="M0 0 H50 V10 H0 L0.2 0.1"/>')
    assert [width for _, width in found] == pytest.approx([20.0] * len(found), abs=0.3)
