"""Tests of a view in braille cells: nothing runs over, nothing is lost, and shapes can be told apart."""

from __future__ import annotations

from itertools import groupby

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from coach.drawing.braille import picture, stacked
from coach.drawing.cells import Line, cell_width
from coach.drawing.figures import scale_bar
from coach.drawing.views import Solid, View, plan_view, side_view
from coach.forms.ring import Ring
from coach.telling.writing import Shown
from tests.drawing.chains import bar, chains, taper
from tests.made import make

COLUMNS = st.integers(min_value=8, max_value=120)
ROWS = st.integers(min_value=3, max_value=40)


def text(lines: tuple[Line, ...]) -> list[str]:
    return ["".join(span.text for span in line) for line in lines]


def kinds(lines: tuple[Line, ...]) -> set[str]:
    return {span.ink for line in lines for span in line}


def dots(lines: tuple[Line, ...]) -> list[list[bool]]:
    """The lit dots, row by row, of a picture without figures."""
    order = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
    wide = max(map(len, text(lines)))
    rows = []
    for line in text(lines):
        codes = [ord(letter) - 0x2800 if letter != " " else 0 for letter in line.ljust(wide)]
        rows += [[bool(code & bit) for code in codes for bit in pair] for pair in order]
    return rows


def extents(lines: tuple[Line, ...]) -> tuple[int, int]:
    """How many dots the lit part is long and high."""
    rows = [index for index, row in enumerate(dots(lines)) if any(row)]
    columns = [at for row in dots(lines) for at, lit in enumerate(row) if lit]
    return max(columns) - min(columns) + 1, max(rows) - min(rows) + 1


def plain(form_or_solids: tuple[Solid, ...]) -> View:
    """A view without marks, which are drawn into the metal."""
    return plan_view(form_or_solids)._replace(marks=())


def test_a_bar_fills_its_cells() -> None:
    # 24 by 11 dots in 12 by 3 cells: one row of dots stays free, so that the bar lies even about its axis.
    assert text(picture(plan_view([Solid("bar", bar(11, 5, 24))]), None, 12, 3, shown=None)) == [
        "⣿⣿⣿⣿⣿⣿⣿⣿⣿⣿⣿⣿",
        "⣿⣿⣿⣿⣿⣿⣿⣿⣿⣿⣿⣿",
        "⠿⠿⠿⠿⠿⠿⠿⠿⠿⠿⠿⠿",
    ]


def test_a_taper_runs_down_to_its_end() -> None:
    # 1 mm to a dot: 11 dots high at the start, one at the end, two fewer every 4.8 dots along.
    assert text(picture(plan_view([Solid("point", taper(11, 1, 24))]), None, 12, 3, shown=None)) == [
        "⣿⣶⣶⣦⣤⣤⣀⣀⡀",
        "⣿⣿⣿⣿⣿⣿⣿⣿⡿⠿⠿⠒",
        "⠿⠛⠛⠋⠉⠉",
    ]


def test_a_hole_stays_empty_and_is_told_as_one() -> None:
    sizes = {"width": 11, "thickness": 5, "length": 24, "hole length": 12, "hole width": 7}
    view = plan_view([Solid("eye", make("eyed", sizes, {"hole": "rectangle"}))])
    lines = picture(view, None, 12, 3, shown=None)
    assert text(lines) == [
        "⣿⣿⣿⠛⠛⠛⠛⠛⠛⣿⣿⣿",
        "⣿⣿⣿      ⣿⣿⣿",
        "⠿⠿⠿⠶⠶⠶⠶⠶⠶⠿⠿⠿",
    ]
    assert [span.ink for span in lines[1]] == ["solid", "hole", "solid"]


def test_steel_is_a_checker_beside_full_metal() -> None:
    solids = [Solid("body", bar(11, 5, 12)), Solid("edge", bar(11, 5, 12), steel=True)]
    lines = picture(plan_view(solids)._replace(marks=()), None, 12, 3, shown=None)
    assert text(lines) == ["⣿⣿⣿⣿⣿⣿⡪⡪⡪⡪⡪⡪"] * 2 + ["⠿⠿⠿⠿⠿⠿⠪⠪⠪⠪⠪⠪"]
    assert [span.ink for span in lines[0]] == ["solid", "steel"]


def test_what_is_wanted_is_a_line_round_nothing() -> None:
    wanted = plan_view([Solid("bar", bar(11, 5, 24))])
    lines = picture(None, wanted, 12, 3, shown=None)
    assert text(lines) == [
        "⡏⠉⠉⠉⠉⠉⠉⠉⠉⠉⠉⢹",
        "⡇          ⢸",
        "⠧⠤⠤⠤⠤⠤⠤⠤⠤⠤⠤⠼",
    ]
    assert kinds(lines) == {"outline", ""}


def test_what_is_wanted_is_bright_beyond_the_metal_and_dark_within_it() -> None:
    now = plan_view([Solid("bar", bar(11, 5, 12))])
    wanted = plan_view([Solid("bar", bar(5, 5, 24))])
    assert text(picture(now, wanted, 12, 3, shown=None)) == [
        "⡿⠿⠿⠿⠿⢿⣀⣀⣀⣀⣀⣀",
        "⡿⠿⠿⠿⠿⢿⣀⣀⣀⣀⣀⣸",
        "⠿⠿⠿⠿⠿⠿",
    ]


def test_metal_that_is_as_wanted_is_drawn_as_metal_alone() -> None:
    view = plan_view([Solid("blade", taper(40, 52, 95)), Solid("bit", taper(52, 75, 60))])
    assert picture(view, view, 60, 12) == picture(view, None, 60, 12)


def test_zones_are_parted_by_a_mark_and_named() -> None:
    lines = picture(
        plan_view([Solid("poll", bar(30, 10, 60)), Solid("blade", bar(20, 10, 90))]), None, 60, 16
    )
    assert "poll" in text(lines)[0]
    assert "blade" in text(lines)[0]
    assert text(lines)[0].index("poll") < text(lines)[0].index("blade")
    assert "mark" in kinds(lines)


def test_sizes_and_a_scale_bar_are_written_where_there_is_room() -> None:
    view = plan_view([Solid("poll", bar(30, 10, 60)), Solid("blade", bar(20, 10, 90))])
    written = "\n".join(text(picture(view, None, 60, 24)))
    for figure in ("30", "20", "60", "90", "50 mm"):
        assert figure in written
    inches = "\n".join(text(picture(view, None, 60, 24, shown=Shown("in"))))
    assert "2 3/8" in inches
    assert "in -" in inches
    assert "mm" not in inches


def test_a_name_without_room_is_left_out_rather_than_cut() -> None:
    solids = [Solid("a very long name for a zone", bar(10, 10, 3)), Solid("shank", bar(10, 10, 90))]
    written = "\n".join(text(picture(plan_view(solids), None, 30, 9)))
    assert "shank" in written
    assert "a very" not in written


def test_a_name_of_wide_letters_keeps_to_its_cells() -> None:
    lines = picture(plan_view([Solid("刃" * 7, bar(10, 10, 100))]), None, 14, 6)
    assert "刃" * 7 in text(lines)[0]
    assert all(cell_width(line) <= 14 for line in text(lines))


def test_a_name_cannot_bring_a_terminals_orders_with_it() -> None:
    written = "".join(text(picture(plan_view([Solid("bit\x1b[2J\n", bar(10, 10, 100))]), None, 40, 8)))
    assert "bit" in written
    assert "\x1b" not in written
    assert "\n" not in written


def test_a_thin_edge_is_never_lost() -> None:
    view = side_view([Solid("body", bar(40, 300, 50)), Solid("blade", bar(40, 0.5, 50))])
    rows = dots(picture(view._replace(marks=()), None, 10, 3, shown=None))
    wide = max(at for row in rows for at, lit in enumerate(row) if lit)
    assert all(any(row[at] for row in rows) for at in range(wide + 1))


@pytest.mark.parametrize(("columns", "rows"), [(7, 10), (20, 2), (0, 0), (-3, -3)])
def test_there_is_no_picture_below_the_least_room(columns: int, rows: int) -> None:
    view = plan_view([Solid("bar", bar(11, 5, 24))])
    assert picture(view, None, columns, rows) == ()
    assert stacked([view], [], columns, rows) == ()


def test_nothing_to_draw_is_no_line() -> None:
    assert picture(None, None, 40, 10) == ()
    assert stacked([], [], 40, 10) == ()


def test_two_views_stacked_have_one_scale() -> None:
    solids = [Solid("blade", bar(60, 20, 120))]
    views = [plan_view(solids)._replace(marks=()), side_view(solids)._replace(marks=())]
    lines = stacked(views, [], 60, 20, shown=None)
    high, low = (len(list(run)) for lit, run in groupby(map(any, dots(lines))) if lit)
    along = max(map(len, text(lines))) * 2
    # 60 and 20 mm of a piece 120 mm long, each right to a dot.
    assert high == pytest.approx(along / 2, abs=1.5)
    assert low == pytest.approx(along / 6, abs=1.5)


def test_too_few_rows_for_all_views_draw_the_first() -> None:
    solids = [Solid("blade", bar(60, 20, 120))]
    assert stacked([plan_view(solids), side_view(solids)], [], 40, 5) == picture(
        plan_view(solids), None, 40, 5
    )


def test_a_scale_given_is_kept_unless_it_would_run_over() -> None:
    view = plain((Solid("bar", bar(20, 5, 50)),))
    assert extents(picture(view, None, 40, 12, shown=None, mm_per_dot=5.0)) == (10, 5)
    assert picture(view, None, 40, 12, mm_per_dot=0.01) == picture(view, None, 40, 12)


def test_a_scale_bar_is_as_long_as_it_says() -> None:
    # 50 mm at 1 mm to a dot, two dots to a cell: 25 cells.
    assert scale_bar(1.0, 40, Shown()) == "|-------- 50 mm --------|"
    # 2 in is 50.8 mm: 25 cells as well.
    assert scale_bar(1.0, 40, Shown("in")) == "|-------- 2 in ---------|"
    assert scale_bar(1.0, 6, Shown()) == ""


@given(chains(), chains(), COLUMNS, ROWS, st.booleans())
def test_a_picture_never_runs_over(
    now: tuple[Solid, ...], wanted: tuple[Solid, ...], columns: int, rows: int, figures: bool
) -> None:
    for view_of in (plan_view, side_view):
        lines = picture(view_of(now), view_of(wanted), columns, rows, shown=Shown() if figures else None)
        assert 1 <= len(lines) <= rows
        assert all(cell_width(line) <= columns for line in text(lines))
        assert kinds(lines) <= {"solid", "outline", "steel", "mark", "hole", "figure", ""}
    views = (plan_view(now), side_view(now))
    lines = stacked(views, (plan_view(wanted),), columns, rows, shown=Shown() if figures else None)
    assert 1 <= len(lines) <= rows
    assert all(cell_width(line) <= columns for line in text(lines))


@given(chains(), COLUMNS, ROWS)
@example((Solid("ring", Ring(48.0, 47.0, 1.0)),), 8, 5)  # its wall is thinner than a dot
def test_something_is_always_to_be_seen(solids: tuple[Solid, ...], columns: int, rows: int) -> None:
    assert any(any(row) for row in dots(picture(plain(solids), None, columns, rows, shown=None)))


@given(chains(), COLUMNS, ROWS)
def test_the_same_piece_gives_the_same_picture(solids: tuple[Solid, ...], columns: int, rows: int) -> None:
    assert picture(plan_view(solids), None, columns, rows) == picture(plan_view(solids), None, columns, rows)


@given(chains(), COLUMNS, ROWS)
def test_a_piece_turned_round_gives_the_picture_turned_round(
    solids: tuple[Solid, ...], columns: int, rows: int
) -> None:
    even = [Solid(solid.zone, solid.form, turned=solid.turned) for solid in solids]
    turned = [solid._replace(turned=not solid.turned) for solid in reversed(even)]
    for view_of in (plan_view, side_view):
        # Marks and dashes are laid out from the left.
        here, there = (
            picture(
                view._replace(marks=(), holes=tuple(hole for hole in view.holes if not hole.hidden)),
                None,
                columns,
                rows,
                shown=None,
            )
            for view in (view_of(even), view_of(turned))
        )
        wide = max(len(row) for row in dots(here))
        flipped = [[*row, *[False] * (wide - len(row))][::-1] for row in dots(there)]
        assert [[*row, *[False] * (wide - len(row))] for row in dots(here)] == flipped
