"""A bar on paper: to scale, every mark at its place with its figure, within the paper."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from coach.drawing.bar_on_paper import WIDTH_MM, bar_svg
from coach.drawing.paper import scale_for
from coach.ledger.looking_back import look_back
from coach.ledger.plan import PlannedPiece
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe_file
from coach.telling.figures import write_figure
from coach.telling.writing import Shown

NAME = "{http://www.w3.org/2000/svg}"
PIECES = [
    pytest.param(piece, id=f"{path.stem} {piece.piece}")
    for path in sorted(bundled_recipes().glob("*.yaml"))
    for piece in look_back(read_recipe_file(path)).pieces.values()
]


@pytest.mark.parametrize("system", ["mm", "in"])
@pytest.mark.parametrize("piece", PIECES)
def test_each_mark_stands_where_it_is_on_the_bar(piece: PlannedPiece, system: str) -> None:
    shown = Shown("in" if system == "in" else "mm")
    root = ElementTree.fromstring(bar_svg(piece, shown))
    bar = [
        tuple(map(float, pair.split(",")))
        for pair in next(root.iter(f"{NAME}polygon")).attrib["points"].split()
    ]
    start, finish = min(x for x, _ in bar), max(x for x, _ in bar)
    scale = piece.length.value / (finish - start)
    assert scale == pytest.approx(round(scale), rel=2e-3)  # coordinates are to a hundredth of a mm
    texts = {one.text: float(one.attrib["x"]) for one in root.iter(f"{NAME}text")}
    lines = [float(one.attrib["x1"]) for one in root.iter(f"{NAME}line")]
    for at in [*(mark.at for mark in piece.marks), *(centre.at for centre in piece.centres)]:
        assert write_figure(at, shown, "n") in texts
        assert min(abs(start + (at.value - piece.begins.value) / scale - x) for x in lines) < 0.02
    assert all(0.0 <= x <= WIDTH_MM for x in texts.values())


def test_a_long_bar_is_drawn_to_the_first_round_scale_that_it_finds_room_in() -> None:
    # ISO 5455:1979, from memory: 1:1, 1:2, 1:5, 1:10.
    assert [scale_for(mm, 100.0) for mm in (100.0, 101.0, 200.1, 501.0)] == [1, 2, 5, 10]
