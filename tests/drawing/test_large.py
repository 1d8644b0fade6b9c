"""Figures of solid blocks: of the right size, and told apart when the picture is shrunk to a quarter."""

from __future__ import annotations

from itertools import combinations

import pytest

from coach.drawing.large import MIDDLE, SMALL, TALL, Stroke, can_draw, large

DIGITS = "0123456789"
SIGNS = "▼▲✓✗~»○"
SIZES = [
    (SMALL, Stroke.LIGHT),
    (MIDDLE, Stroke.LIGHT),
    (MIDDLE, Stroke.HEAVY),
    (TALL, Stroke.HEAVY),
    (TALL, Stroke.WIDE),
]
#: Which quarters of a cell each block fills: left above, right above, left below, right below.
QUARTERS = {
    " ": (0, 0, 0, 0),
    "█": (1, 1, 1, 1),
    "▀": (1, 1, 0, 0),
    "▄": (0, 0, 1, 1),
    "▌": (1, 0, 1, 0),
    "▐": (0, 1, 0, 1),
}
#: So many dots, of which a cell is 8 by 16, become one when a picture is shrunk to a quarter.
SHRUNK = 4
#: The dots of one cell in the picture that is shrunk.
CELL = 8


def dots(rows: tuple[str, ...], columns: int) -> list[list[int]]:
    """A drawing as the dots of a terminal whose cells are 8 dots wide and 16 high."""
    grid = []
    for row in rows:
        cells = [QUARTERS[letter] for letter in row.ljust(columns)]
        for above in (0, 2):
            line = [cell[above + side] for cell in cells for side in (0, 1) for _ in range(4)]
            grid += [line] * 8
    return grid


def shrunk(rows: tuple[str, ...], columns: int) -> list[float]:
    """The brightness of every dot of the picture shrunk to a quarter."""
    grid = dots(rows, columns)
    return [
        sum(sum(line[x : x + SHRUNK]) for line in grid[y : y + SHRUNK]) / SHRUNK**2
        for y in range(0, len(grid), SHRUNK)
        for x in range(0, len(grid[0]), SHRUNK)
    ]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("letters", [DIGITS, SIGNS])
def test_shrunk_to_a_quarter_every_two_differ_by_a_whole_cell_at_least(
    letters: str, size: tuple[int, Stroke]
) -> None:
    for one, other in combinations(letters, 2):
        drawn = [large(letter, *size) for letter in (one, other)]
        columns = max(len(row) for rows in drawn for row in rows)
        first, second = (shrunk(rows, columns) for rows in drawn)
        apart = sum(abs(a - b) for a, b in zip(first, second, strict=True))
        assert apart >= CELL, (one, other)


@pytest.mark.parametrize("size", SIZES)
def test_every_letter_has_its_rows_and_no_blank_at_their_ends(size: tuple[int, Stroke]) -> None:
    for letter in DIGITS + SIGNS + ".:/-?":
        drawn = large(f"{letter}1", *size)
        assert len(drawn) == size[0]
        assert all(row == row.rstrip() for row in drawn)


def test_a_letter_without_a_large_form_is_refused() -> None:
    assert not can_draw("12 mm")
    with pytest.raises(KeyError):
        large("m", SMALL)
