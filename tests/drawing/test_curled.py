"""What is curled up is drawn as it is, alone, at either end of a piece and between neighbours."""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon

from coach.drawing.svg import svg
from coach.drawing.views import Axis, Solid, View, plan_view, side_view
from coach.forms import Form, kinds
from tests.drawing.chains import bar
from tests.made import make

CURLED = [
    make("scroll", {"across": 72, "eye": 18, "pitch": 14, "width": 20, "thickness": 6}),
    make("round scroll", {"across": 60, "eye": 16, "pitch": 12, "diameter": 6}),
    make("coil", {"inside": 18, "pitch": 11, "diameter": 8, "wound length": 96}),
    make("coil", {"inside": 18, "pitch": 30, "diameter": 8, "wound length": 52}),
    make("link", {"inner length": 52, "inner width": 20, "diameter": 10}),
    make("strap eye", {"inside": 36, "width": 50, "thickness": 8, "lap": 30}),
    make("collar", {"inside width": 24, "inside height": 12, "width": 16, "thickness": 4}),
    make("disc", {"diameter": 96, "thickness": 2.5}),
    make("bowl", {"across": 88, "depth": 26, "wall": 2.1}),
]
BAR = Solid("bar", bar(20, 6, 80))


def extents(view: View, zone: int) -> tuple[float, float, float]:
    """Where a zone begins and ends along the piece, and how high it is."""
    west, south, east, north = Polygon(view.outlines[zone]).bounds
    return west, east, north - south


def views(*solids: Solid) -> tuple[View, View]:
    return plan_view(solids), side_view(solids)


def test_every_form_that_is_curled_is_looked_at_here() -> None:
    def is_curled(kind: str) -> bool:
        return "curled" in vars(kinds()[kind])

    assert {form.KIND for form in CURLED} == set(filter(is_curled, kinds()))


@pytest.mark.parametrize("form", CURLED, ids=lambda form: form.KIND)
def test_a_curl_is_one_whole_outline_as_large_as_its_view(form: Form) -> None:
    for view in views(Solid("curl", form)):
        outline = Polygon(view.outlines[0]).buffer(0)
        assert outline.geom_type == "Polygon"
        assert extents(view, 0) == pytest.approx((0, view.length_mm, view.height_mm))
        sizes = {one.axis: one.size_mm for one in view.dimensions}
        assert sizes == pytest.approx({Axis.ALONG: view.length_mm, Axis.ACROSS: view.height_mm})


@pytest.mark.parametrize("form", CURLED, ids=lambda form: form.KIND)
def test_a_curl_at_the_beginning_of_a_piece_looks_the_other_way(form: Form) -> None:
    for last, first in zip(
        views(BAR, Solid("curl", form)), views(Solid("curl", form, turned=True), BAR), strict=True
    ):
        begins, ends, high = extents(first, 0)
        assert (begins, ends, high) == pytest.approx((0, first.length_mm - 80, extents(last, 1)[2]))
        assert extents(last, 1)[:2] == pytest.approx((80, last.length_mm))
        assert first.length_mm == pytest.approx(last.length_mm)
        mirrored = Polygon([(first.length_mm - x, y) for x, y in first.outlines[0]])
        area = Polygon(last.outlines[1]).buffer(0).symmetric_difference(mirrored.buffer(0)).area
        assert area == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("form", CURLED, ids=lambda form: form.KIND)
def test_a_curl_is_shaded_where_it_is_steel_and_goes_on_paper(form: Form) -> None:
    solids = (BAR, Solid("curl", form, steel=True))
    for view in views(*solids):
        assert view.steel == (view.outlines[1],)
    assert "curl" in svg(views(*solids), "Curl")
