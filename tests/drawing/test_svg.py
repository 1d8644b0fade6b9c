"""Tests of views on paper: valid XML of its own, to scale, and with every size."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.drawing.ink import FIGURE_MM, wide_mm
from coach.drawing.svg import svg
from coach.drawing.views import Solid, plan_view, side_view
from coach.telling.writing import Shown
from tests.drawing.chains import bar, chains, eyed, taper

NAME = "{http://www.w3.org/2000/svg}"


def words(drawn: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(drawn).iter(f"{NAME}text")]


def polygons(drawn: str) -> list[tuple[list[tuple[float, float]], str, bool]]:
    """Every polygon with its fill and whether it is dashed."""
    found = []
    for element in ElementTree.fromstring(drawn).iter(f"{NAME}polygon"):
        points = [tuple(map(float, pair.split(","))) for pair in element.attrib["points"].split()]
        found.append(
            ([(x, y) for x, y in points], element.attrib["fill"], "stroke-dasharray" in element.attrib)
        )
    return found


def test_the_paper_is_measured_in_millimetres_so_that_it_prints_at_full_size() -> None:
    root = ElementTree.fromstring(svg([plan_view([Solid("shank", bar(30, 12, 240))])], "Shank"))
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    assert (left, top) == (0, 0)
    assert root.attrib["width"] == f"{width:g}mm"
    assert root.attrib["height"] == f"{height:g}mm"
    assert width >= 240


def test_the_metal_is_as_long_and_as_wide_on_paper_as_it_is() -> None:
    drawn = svg([plan_view([Solid("poll", bar(33, 33, 36)), Solid("bit", taper(52, 75, 60))])], "Head")
    metal = [points for points, fill, _ in polygons(drawn) if fill == "#e4e4e4"]
    sizes = [
        (
            max(x for x, _ in points) - min(x for x, _ in points),
            max(y for _, y in points) - min(y for _, y in points),
        )
        for points in metal
    ]
    # Coordinates are written to a hundredth.
    assert sizes == [pytest.approx((36, 33), abs=0.02), pytest.approx((60, 75), abs=0.02)]


def test_every_size_and_name_is_written() -> None:
    solids = [Solid("poll", bar(33, 33, 36)), Solid("eye", eyed()), Solid("bit", taper(52, 75, 57))]
    written = words(svg([plan_view(solids)], "Head"))
    for word in ("Head", "poll", "eye", "bit", "33", "36", "40", "60", "52", "75", "57", "153", "36 × 20"):
        assert written.count(word) >= 1, word


def test_a_tapered_hole_tells_both_mouths() -> None:
    written = words(svg([plan_view([Solid("eye", eyed(far_mm=(37.5, 21.5)))])], "Eye"))
    assert "hole 36 × 20 to 37.5 × 21.5" in written


def test_a_hole_whose_mouths_are_told_alike_tells_one() -> None:
    """A drift leaves the far mouth wider by less than a calliper shows."""
    written = words(svg([plan_view([Solid("eye", eyed(far_mm=(36.02, 20.02)))])], "Eye"))
    assert "36 × 20" in " ".join(written)
    assert "36 × 20 to" not in " ".join(written)


def test_a_round_hole_tells_one_diameter() -> None:
    assert "20" in words(svg([plan_view([Solid("eye", eyed("round"))])], "Eye"))


def test_a_size_that_goes_on_from_zone_to_zone_is_written_once() -> None:
    stock = [Solid("poll", bar(45, 35, 20)), Solid("eye", bar(45, 35, 42)), Solid("bit", bar(45, 35, 15))]
    assert words(svg([plan_view(stock)], "Stock")).count("45") == 1


def test_sizes_are_shown_in_inches_when_asked() -> None:
    written = words(svg([plan_view([Solid("shank", bar(25.4, 12, 254))])], "Shank", Shown("in")))
    assert "1" in written
    assert "10" in written
    assert any("inches" in word for word in written)
    assert not any("mm" in word for word in written)


def test_words_are_escaped_and_come_out_as_they_went_in() -> None:
    name = '<zone & "x">'
    drawn = svg([plan_view([Solid(name, bar(30, 12, 90))])], name)
    assert "<zone" not in drawn
    assert words(drawn).count(name) == 2


def test_what_xml_has_no_place_for_is_left_out() -> None:
    written = words(svg([plan_view([Solid("bit\x00\x1b\ud800", bar(30, 12, 90))])], "One\ntwo"))
    assert "bit" in written
    assert "One two" in written


def test_a_hidden_hole_is_dashed_and_an_open_one_is_blank() -> None:
    solids = [Solid("eye", eyed())]
    assert [fill for _, fill, dashed in polygons(svg([side_view(solids)], "Eye")) if dashed] == ["none"]
    drawn = polygons(svg([plan_view(solids)], "Eye"))
    assert not any(dashed for _, _, dashed in drawn)
    assert [fill for _, fill, _ in drawn].count("#fff") == 1


def test_steel_is_hatched_and_the_paper_says_so_only_then() -> None:
    soft = svg([plan_view([Solid("bit", bar(30, 12, 90))])], "Bit")
    hard = svg([plan_view([Solid("bit", bar(30, 12, 90), steel=True)])], "Bit")
    assert hard.count("<line") > soft.count("<line") + 20
    assert any("steel is hatched" in word for word in words(hard))
    assert not any("steel" in word for word in words(soft))


def test_hatching_keeps_within_the_steel() -> None:
    solid = Solid("bit", taper(20, 60, 50), steel=True)
    drawn = svg([plan_view([solid])], "Bit")
    lines = [line.attrib for line in ElementTree.fromstring(drawn).iter(f"{NAME}line")]
    slanting = [line for line in lines if line["x1"] != line["x2"] and line["y1"] != line["y2"]]
    assert slanting
    metal = next(points for points, fill, _ in polygons(drawn) if fill == "#e4e4e4")
    left, axis = min(x for x, _ in metal), sum(y for _, y in metal) / len(metal)
    for line in slanting:
        for end in ("1", "2"):
            x, y = float(line[f"x{end}"]) - left, float(line[f"y{end}"]) - axis
            assert abs(y) <= (20 + 40 * x / 50) / 2 + 0.05


def test_the_paper_needs_nothing_from_elsewhere() -> None:
    drawn = svg([plan_view([Solid("eye", eyed(), steel=True)])], "Eye")
    assert re.findall(r"(?:href|url\(|@import|src=)", drawn) == []
    assert set(re.findall(r'font-family="([^"]*)"', drawn)) == {"sans-serif"}
    assert re.findall(r"https?://[^\"]*", drawn) == ["http://www.w3.org/2000/svg"]


def test_views_stand_one_under_the_other() -> None:
    solids = [Solid("shank", bar(30, 12, 90))]
    drawn = svg([plan_view(solids), side_view(solids)], "Shank")
    plan, side = (points for points, fill, _ in polygons(drawn) if fill == "#e4e4e4")
    assert max(y for _, y in plan) < min(y for _, y in side)
    written = words(drawn)
    assert written.index("Seen on the width") < written.index("Seen on the thickness")


@settings(max_examples=40)
@given(chains(), st.text(max_size=30))
def test_any_piece_becomes_xml_within_its_paper(solids: tuple[Solid, ...], title: str) -> None:
    drawn = svg([plan_view(solids), side_view(solids)], title)
    root = ElementTree.fromstring(drawn)
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    for points, _, _ in polygons(drawn):
        assert all(0 <= x <= width and 0 <= y <= height for x, y in points)


def _upright(drawn: str) -> list[tuple[float, float, float]]:
    """Every upright line: where it stands, and from where to where down the paper."""
    found = []
    for element in ElementTree.fromstring(drawn).iter(f"{NAME}line"):
        x1, y1, x2, y2 = (float(element.attrib[name]) for name in ("x1", "y1", "x2", "y2"))
        if x1 == x2:
            found.append((x1, min(y1, y2), max(y1, y2)))
    return found


def _figures(drawn: str) -> list[tuple[int, str, float, float, float]]:
    """Every figure: its place in the order of drawing, its words, its middle, its width and its base line."""
    order = list(ElementTree.fromstring(drawn).iter())
    return [
        (at, one.text or "", float(one.attrib["x"]), wide_mm(one.text or ""), float(one.attrib["y"]))
        for at, one in enumerate(order)
        if one.tag == f"{NAME}text" and one.attrib.get("text-anchor") == "middle"
    ]


@pytest.mark.parametrize("scale", [1, 2])
def test_no_line_runs_through_the_figures_over_a_view(scale: int) -> None:
    """The mark between two zones ended at the foot of the figure over it, and cut the comma of 7.8."""
    solids = [Solid("poll", bar(33, 33, 36)), Solid("eye", eyed()), Solid("bit", taper(52.5, 75, 57))]
    drawn = svg([plan_view(solids)], "Head", scale=scale)
    figures = [one for one in _figures(drawn) if "hole" not in one[1]]
    assert len(figures) > 5
    for _, told, middle, wide, base in figures:
        for x, top, foot in _upright(drawn):
            inside = abs(x - middle) <= wide / 2 and top < base + 0.5 and foot > base - FIGURE_MM
            assert not inside, f"{told} is struck through at {x}"


def test_the_size_of_a_hole_below_a_view_lies_on_white_over_the_lines_that_run_there() -> None:
    solids = [
        Solid("poll", bar(33, 33, 36)),
        Solid("eye", eyed(far_mm=(37.5, 21.5))),
        Solid("bit", bar(40, 18, 57)),
    ]
    drawn = svg([plan_view(solids)], "Head", scale=2)
    order = list(ElementTree.fromstring(drawn).iter())
    (hole,) = (one for one in _figures(drawn) if one[1].startswith("hole"))
    at, _, middle, wide, base = hole
    under = order[at - 1]
    assert under.tag == f"{NAME}rect"
    left, across = float(under.attrib["x"]), float(under.attrib["width"])
    assert left <= middle - wide / 2
    assert left + across >= middle + wide / 2
    assert float(under.attrib["y"]) < base - 0.9 * FIGURE_MM
    assert not any(one.tag in (f"{NAME}line", f"{NAME}polygon") for one in order[at:])
