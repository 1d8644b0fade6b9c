"""Tests of a size plotted over the heats."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.drawing.cells import Ink, cell_width
from coach.drawing.plot import Point, plot
from coach.drawing.views import DrawingError
from tests.drawing.test_braille import kinds, text


def one_place(size: float) -> str:
    return f"{size:.1f}"


FALLING = [Point(1, 12, 8, 16), Point(3, 6, 3, 9), Point(5, 2, 1, 3)]


@st.composite
def points(draw: st.DrawFn) -> list[Point]:
    found = []
    for _ in range(draw(st.integers(min_value=1, max_value=12))):
        value = draw(st.floats(min_value=-1e6, max_value=1e6))
        doubt = draw(st.floats(min_value=0, max_value=1e5))
        found.append(
            Point(draw(st.integers(min_value=0, max_value=200)), value, value - doubt, value + doubt)
        )
    return found


def test_a_steady_size_is_a_level_line() -> None:
    lines = text(plot([Point(0, 4, 4, 4), Point(9, 4, 4, 4)], 12, 4, label=lambda _: ""))
    # Twelve rows of dots: the line is in the first, zero in the last, where every second dot is lit.
    assert [line.strip() for line in lines[:3]] == ["⠉" * 11, "", "⡀" * 11]


def test_it_falls_as_the_sizes_do() -> None:
    lines = plot([Point(0, 8, 8, 8), Point(1, 0, 0, 0)], 9, 5, label=lambda _: "")[:4]
    inks = [[span.ink for span in line for _ in span.text] for line in lines]
    first = [line.index(Ink.SOLID) for line in inks]
    assert first == sorted(first)
    assert first[0] < first[-1]


def test_the_axis_tells_the_highest_the_lowest_and_the_last() -> None:
    written = "\n".join(text(plot(FALLING, 40, 12, label=one_place)))
    for figure in ("16.0", "0.0", "2.0", "heat 1", "3", "5"):
        assert figure in written


def test_zero_is_a_line_of_its_own_when_sizes_run_below_it() -> None:
    lines = plot([Point(1, 10, 9, 11), Point(2, -10, -11, -9)], 40, 9, label=one_place)
    assert "mark" in kinds(lines)
    (zero,) = (line for line in text(lines) if line.startswith("  0.0 "))
    assert text(lines).index(zero) == 4
    assert "-11.0" in text(lines)[7]


def test_the_band_is_told_apart_from_the_line() -> None:
    assert {"solid", "steel"} <= kinds(plot(FALLING, 40, 12, label=one_place))
    assert "steel" not in kinds(plot([Point(1, 5, 5, 5), Point(2, 5, 5, 5)], 40, 12, label=one_place))


def test_one_heat_is_drawn_in_the_middle() -> None:
    lines = plot([Point(4, 5, 2, 8)], 30, 8, label=one_place)
    assert "heat 4" in text(lines)[-1]
    assert {"solid", "steel"} <= kinds(lines)


def test_the_order_of_the_points_does_not_matter() -> None:
    assert plot(FALLING[::-1], 40, 12, label=one_place) == plot(FALLING, 40, 12, label=one_place)


def test_figures_too_wide_for_the_room_give_way_to_the_line() -> None:
    lines = plot(FALLING, 10, 5, label=lambda size: f"{size:.1f} millimetres")
    assert all(cell_width(line) <= 10 for line in text(lines))
    assert "solid" in kinds(lines)


def test_no_heat_is_no_plot() -> None:
    assert plot([], 40, 12, label=one_place) == ()
    assert plot(FALLING, 7, 12, label=one_place) == ()
    assert plot(FALLING, 40, 2, label=one_place) == ()


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("field", ["value", "low", "high"])
def test_what_is_no_number_is_refused_by_its_heat(bad: float, field: str) -> None:
    point = Point(3, **({"value": 5.0, "low": 4.0, "high": 6.0} | {field: bad}))
    with pytest.raises(DrawingError, match=r"^The size after heat 3 cannot be plotted: .*\.$"):
        plot([point], 40, 12, label=one_place)


def test_a_band_upside_down_is_refused() -> None:
    with pytest.raises(DrawingError, match="its low, 6, is above its high, 4"):
        plot([Point(3, 5, 6, 4)], 40, 12, label=one_place)


def test_sizes_beyond_all_measure_are_refused() -> None:
    with pytest.raises(DrawingError, match="too far apart"):
        plot([Point(1, 1e308, 1e308, 1e308), Point(2, -1e308, -1e308, -1e308)], 40, 12, label=one_place)


@given(points(), st.integers(min_value=8, max_value=100), st.integers(min_value=3, max_value=40))
def test_a_plot_never_runs_over(some: list[Point], columns: int, rows: int) -> None:
    lines = plot(some, columns, rows, label=one_place)
    assert 1 <= len(lines) <= rows
    assert all(cell_width(line) <= columns for line in text(lines))
    assert "solid" in kinds(lines)
