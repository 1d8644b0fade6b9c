"""Tests of a piece seen from two sides."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from coach.drawing.views import DrawingError, Polygon, Solid, View, plan_view, side_view
from coach.forms import Form
from coach.forms.ring import Ring
from coach.forms.round import Round
from tests.drawing.chains import bar, chains, eyed, taper
from tests.made import make


def area_mm2(polygon: Polygon) -> float:
    """The area of a closed polygon, mm², by the shoelace formula (elementary geometry)."""
    turned = zip(polygon, (*polygon[1:], *polygon[:1]), strict=True)
    return abs(sum(x_1 * y_2 - x_2 * y_1 for (x_1, y_1), (x_2, y_2) in turned)) / 2


def extents(polygon: Polygon) -> tuple[float, float]:
    xs, ys = zip(*polygon, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def sizes(view: View, direction: str) -> list[float]:
    return [one.size_mm for one in view.dimensions if one.axis == direction]


def test_a_bar_is_its_width_from_above_and_its_thickness_from_the_side() -> None:
    solids = [Solid("shank", bar(30, 12, 120))]
    plan, side = plan_view(solids), side_view(solids)
    assert (plan.length_mm, plan.height_mm) == (120, 30)
    assert (side.length_mm, side.height_mm) == (120, 12)
    assert extents(plan.outlines[0]) == (120, 30)
    assert extents(side.outlines[0]) == (120, 12)
    assert area_mm2(plan.outlines[0]) == pytest.approx(30 * 120)


@pytest.mark.parametrize(
    ("form", "plan_mm2", "side_mm2"),
    [
        # A silhouette's area from the sizes, worked apart: trapezia are mean height times length.
        pytest.param(taper(40, 20, 90, thickness=10), 30 * 90, 10 * 90, id="taper"),
        pytest.param(
            make("round taper", {"diameter": 30, "end diameter": 10, "length": 80}),
            20 * 80,
            20 * 80,
            id="cone",
        ),
        pytest.param(make("octagon", {"across flats": 22, "length": 50}), 22 * 50, 22 * 50, id="octagon"),
        # Over its corners from above, 22·2/√3, and over its flats from the side.
        pytest.param(make("hexagon", {"across flats": 22, "length": 50}), 2200 / 3**0.5, 1100, id="hexagon"),
        pytest.param(Round(18.0, 70.0), 18 * 70, 18 * 70, id="round"),
        pytest.param(
            make(
                "profile",
                {"length": 100, "width": 50, "thickness": 20},
                {},
                [(0, 1, 1), (0.31, 0.4, 0.5), (1, 0.8, 0)],
            ),
            # 0.31·100·(50 + 20)/2 + 0.69·100·(20 + 40)/2; the same with 20, 10 and 0.
            1085 + 2070,
            465 + 345,
            id="profile whose station lies between the stretches",
        ),
    ],
)
def test_a_silhouette_has_the_area_that_its_sizes_give(form: Form, plan_mm2: float, side_mm2: float) -> None:
    solids = [Solid("zone", form)]
    assert area_mm2(plan_view(solids).outlines[0]) == pytest.approx(plan_mm2, rel=1e-9)
    assert area_mm2(side_view(solids).outlines[0]) == pytest.approx(side_mm2, rel=1e-9)


def test_zones_follow_each_other_along_the_piece() -> None:
    view = plan_view(
        [Solid("poll", bar(33, 33, 36)), Solid("blade", taper(40, 52, 95)), Solid("bit", taper(52, 75, 60))]
    )
    assert [(mark.x_mm, mark.name) for mark in view.marks] == [(0, "poll"), (36, "blade"), (131, "bit")]
    assert view.length_mm == 191
    assert view.height_mm == 75
    for outline, (start, finish) in zip(view.outlines, [(0, 36), (36, 131), (131, 191)], strict=True):
        xs = [x for x, _ in outline]
        assert (min(xs), max(xs)) == (start, finish)


def test_every_length_is_given_and_a_size_across_only_where_it_changes() -> None:
    view = plan_view(
        [Solid("poll", bar(40, 33, 36)), Solid("blade", taper(40, 52, 95)), Solid("bit", bar(52, 9, 60))]
    )
    assert sizes(view, "along") == [36, 95, 60]
    assert sizes(view, "across") == [40, 52]


def test_an_edge_that_comes_to_nothing_has_no_size_across() -> None:
    form = make("profile", {"length": 80, "width": 40, "thickness": 12}, {}, [(0, 1, 1), (1, 1, 0)])
    assert sizes(side_view([Solid("blade", form)]), "across") == [12]


def test_a_head_widest_in_the_middle_says_so() -> None:
    form = make(
        "profile", {"length": 80, "width": 40, "thickness": 12}, {}, [(0, 0.5, 1), (0.5, 1, 1), (1, 0.5, 1)]
    )
    assert sizes(plan_view([Solid("head", form)]), "across") == [20, 40, 20]


@pytest.mark.parametrize(
    ("shape", "hole_mm2"),
    [
        # Elementary geometry: ellipse π/4·36·20, stadium 16·20 + π/4·20², circle π/4·20², rectangle 36·20.
        ("oval", math.pi / 4 * 36 * 20),
        ("slot", 16 * 20 + math.pi / 4 * 400),
        ("round", math.pi / 4 * 400),
        ("rectangle", 36 * 20),
    ],
)
def test_a_hole_seen_through_is_as_large_as_it_is(shape: str, hole_mm2: float) -> None:
    (hole,) = plan_view([Solid("poll", bar(30, 30, 25)), Solid("eye", eyed(shape))]).holes
    assert not hole.hidden
    # The outline is a polygon within the curve: some thousandths short.
    assert area_mm2(hole.points) == pytest.approx(hole_mm2, rel=5e-3)
    assert extents(hole.points) == pytest.approx((20 if shape == "round" else 36, 20), rel=1e-3)
    xs = [x for x, _ in hole.points]
    assert (min(xs) + max(xs)) / 2 == pytest.approx(25 + 30)


def test_a_hole_is_hidden_from_the_side_that_it_does_not_go_through() -> None:
    solids = [Solid("eye", eyed(through="thickness"))]
    assert [hole.hidden for hole in plan_view(solids).holes] == [False]
    assert [hole.hidden for hole in side_view(solids).holes] == [True]
    solids = [Solid("eye", eyed(through="width"))]
    assert [hole.hidden for hole in plan_view(solids).holes] == [True]
    assert [hole.hidden for hole in side_view(solids).holes] == [False]


def test_a_hidden_hole_is_as_deep_as_the_block_and_as_long_as_its_mouths() -> None:
    form = eyed(far_mm=(40, 24))
    (hole,) = side_view([Solid("eye", form)]).holes
    upper = [x for x, y in hole.points if y == 15]
    lower = [x for x, y in hole.points if y == -15]
    assert max(upper) - min(upper) == pytest.approx(36)
    assert max(lower) - min(lower) == pytest.approx(40)


def test_a_wider_far_mouth_is_behind_metal_and_a_narrower_one_is_seen() -> None:
    wider = plan_view([Solid("eye", eyed(far_mm=(40, 24)))])
    assert [hole.hidden for hole in wider.holes] == [False, True]
    narrower = plan_view([Solid("eye", eyed(far_mm=(30, 16)))])
    assert [hole.hidden for hole in narrower.holes] == [False, False]


def test_the_bore_of_a_socket_is_hidden() -> None:
    form = make("socket", {"mouth diameter": 32, "end diameter": 18, "wall": 3, "length": 100})
    (bore,) = plan_view([Solid("socket", form)]).holes
    assert bore.hidden
    assert area_mm2(bore.points) == pytest.approx((26 + 12) / 2 * 100)


def test_steel_throughout_is_shaded_throughout() -> None:
    view = plan_view([Solid("body", bar(30, 12, 50)), Solid("edge", bar(30, 12, 40), steel=True)])
    (steel,) = view.steel
    assert steel == view.outlines[1]


@pytest.mark.parametrize(("turned", "shaded"), [(False, (45, 60)), (True, (0, 15))])
def test_laid_steel_is_shaded_at_the_far_end_by_its_share(turned: bool, shaded: tuple[float, float]) -> None:
    solid = Solid("bit", bar(30, 12, 60), steel=True, laid_share=0.25, turned=turned)
    (steel,) = plan_view([solid]).steel
    xs = [x for x, _ in steel]
    assert (min(xs), max(xs)) == pytest.approx(shaded)


def test_a_zone_turned_round_begins_with_its_far_end() -> None:
    view = plan_view([Solid("peen", taper(34, 12, 50), turned=True), Solid("eye", bar(44, 38, 42))])
    heights = {x: max(y for at, y in view.outlines[0] if at == x) for x in (0, 50)}
    assert heights == {0: 6, 50: 17}
    assert [(one.start[0], one.size_mm) for one in view.dimensions if one.axis == "across"] == [
        (0, 12),
        (50, 34),
        (71, 44),
    ]


def test_a_share_of_a_taper_is_of_its_metal_not_of_its_length() -> None:
    # A taper in width alone, 60 to 20 over 80: width falls by 0.5 mm a mm. The last half of the metal, 1600
    # of 3200 mm² in plan, begins where 60·x − x²/4 = 1600, at x = 120 − √8000 = 30.557.
    (steel,) = plan_view([Solid("bit", taper(60, 20, 80), steel=True, laid_share=0.5)]).steel
    assert min(x for x, _ in steel) == pytest.approx(120 - math.sqrt(8000), abs=0.01)


def test_a_ring_alone_is_round_and_one_with_neighbours_is_drawn_as_its_bar() -> None:
    ring = Ring(60.0, 40.0, 8.0)
    plan, side = plan_view([Solid("ferrule", ring)]), side_view([Solid("ferrule", ring)])
    assert extents(plan.outlines[0]) == pytest.approx((60, 60))
    (hole,) = plan.holes
    assert not hole.hidden
    assert extents(hole.points) == pytest.approx((40, 40))
    assert extents(side.outlines[0]) == pytest.approx((60, 8))
    chain = plan_view([Solid("ferrule", ring), Solid("tail", bar(10, 8, 30))])
    assert chain.length_mm == pytest.approx(math.pi * 50 + 30)


def test_a_ring_of_round_bar_shows_its_whole_diameter() -> None:
    form = make("round ring", {"inner diameter": 40, "diameter": 6})
    assert extents(plan_view([Solid("ring", form)]).outlines[0]) == pytest.approx((52, 52))
    assert extents(side_view([Solid("ring", form)]).outlines[0]) == pytest.approx((52, 6))


@given(chains())
def test_a_view_is_as_long_and_as_high_as_its_outlines(solids: tuple[Solid, ...]) -> None:
    for view in (plan_view(solids), side_view(solids)):
        points = [point for outline in view.outlines for point in outline]
        along, across = extents(tuple(points))
        assert along == pytest.approx(view.length_mm)
        assert across == pytest.approx(view.height_mm)
        for steel in view.steel:
            assert all(-1e-9 <= x <= view.length_mm * (1 + 1e-9) for x, _ in steel)


@given(chains())
def test_silhouettes_are_even_about_the_axis(solids: tuple[Solid, ...]) -> None:
    for outline in plan_view(solids).outlines:
        assert sum(y for _, y in outline) == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("length", [math.nan, math.inf, 0.0, -3.0, 5e-324, 1e300])
def test_a_size_that_is_none_is_refused_by_its_name(length: float) -> None:
    form = bar(30, 12, 50).with_sizes({"length": length})
    with pytest.raises(DrawingError, match=r"^The length of shank cannot be drawn: "):
        side_view([Solid("shank", form)])
