"""Marks on paper as SVG elements, in mm: texts, lines, polygons and dimension lines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from html import escape
from typing import Final

from coach.drawing.cells import cell_width
from coach.forms import Point

FIGURE_MM: Final = 3.2  # height of figures and names
BODY_LINE_MM: Final = 0.35
FINE_LINE_MM: Final = 0.15
_BEYOND_MM: Final = 1.2  # that an extension line runs past its dimension line
_GAP_MM: Final = 0.6  # that it keeps from the body
_ARROW_MM: Final = (2.0, 0.5)  # its length and half its width
_HATCH_MM: Final = 3.0  # on the level, from one line to the next
#: The width of a letter as a share of its height, a little more than most sans-serif faces have.
_LETTER_SHARE: Final = 0.62


def number(mm: float) -> str:
    """A coordinate to a hundredth of a mm, without idle zeros.

    >>> number(12.5), number(-0.001)
    ('12.5', '0')
    """
    text = f"{mm:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def letters(words: str) -> str:
    """Words as they may stand in XML: its signs escaped, and what it has no place for left out."""
    return escape("".join(letter for letter in " ".join(words.split()) if letter.isprintable()))


def wide_mm(words: str, size_mm: float = FIGURE_MM) -> float:
    """About how wide words are when they are set, mm."""
    return cell_width(words) * _LETTER_SHARE * size_mm


def text(x_mm: float, y_mm: float, words: str, *, size_mm: float = FIGURE_MM, more: str = "") -> str:
    """Words on a base line, from that place on; `more` adds attributes."""
    size = "" if size_mm == FIGURE_MM else f' font-size="{number(size_mm)}"'
    return f'<text x="{number(x_mm)}" y="{number(y_mm)}"{size}{more}>{letters(words)}</text>'


def figure(x_mm: float, y_mm: float, words: str, *, more: str = "") -> str:
    """Words in the middle about a place."""
    return text(x_mm, y_mm, words, more=f' text-anchor="middle"{more}')


def polygon(points: Iterable[Point], *, fill: str, line_mm: float = 0.0, dashed: bool = False) -> str:
    """A closed outline; without a line where its width is 0."""
    where = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    stroke = f' stroke="#000" stroke-width="{number(line_mm)}"' if line_mm else ""
    dashes = ' stroke-dasharray="2 1"' if dashed else ""
    return f'<polygon points="{where}" fill="{fill}"{stroke}{dashes}/>'


def hatched(points: Sequence[Point]) -> list[str]:
    """Slanting lines inside a closed outline, and the line that ends them.

    Drawn one by one, for a pattern fill is a plain grey to some that show SVG.
    """
    corners = [(x + y, x - y) for x, y in points]  # along this way and across it, √2 times as large
    edges = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    first = math.ceil(min(across for _, across in corners) / _HATCH_MM)
    last = math.floor(max(across for _, across in corners) / _HATCH_MM)
    parts = []
    for index in range(first, last + 1):
        across = index * _HATCH_MM
        crossings = sorted(
            a_1 + (a_2 - a_1) * (across - c_1) / (c_2 - c_1)
            for (a_1, c_1), (a_2, c_2) in edges
            if (c_1 <= across) != (c_2 <= across)
        )
        for start, finish in zip(crossings[::2], crossings[1::2], strict=False):
            ends = [((along + across) / 2, (along - across) / 2) for along in (start, finish)]
            parts.append(line(ends[0], ends[1]))
    return [*parts, polygon(points, fill="none", line_mm=FINE_LINE_MM)]


def backing(x_mm: float, base_mm: float, words: str) -> str:
    """White under a figure, so that no line that runs there strikes it through."""
    wide, high = wide_mm(words) + 2 * _GAP_MM, 1.3 * FIGURE_MM
    where = (("x", x_mm - wide / 2), ("y", base_mm - FIGURE_MM), ("width", wide), ("height", high))
    ends = " ".join(f'{name}="{number(mm)}"' for name, mm in where)
    return f'<rect {ends} fill="#fff"/>'


def line(start: Point, finish: Point, *, dashes: str = "") -> str:
    """A fine line."""
    where = zip(("x1", "y1", "x2", "y2"), (*start, *finish), strict=True)
    pattern = f' stroke-dasharray="{dashes}"' if dashes else ""
    ends = " ".join(f'{name}="{number(mm)}"' for name, mm in where)
    return f'<line {ends} stroke="#000" stroke-width="{number(FINE_LINE_MM)}"{pattern}/>'


def lengthwise(start: Point, finish: Point, y_mm: float) -> list[str]:
    """A dimension line from left to right at that height, with extension lines down to it."""
    parts = [line((x, y + _GAP_MM), (x, y_mm + _BEYOND_MM)) for x, y in (start, finish)]
    return [*parts, *_arrowed((start[0], y_mm), (finish[0], y_mm))]


def crosswise(top: Point, bottom: Point, from_y_mm: float) -> list[str]:
    """A dimension line from edge to edge of the body, and a fine line down to it from its figure above."""
    return [line((top[0], from_y_mm), top), *_arrowed(top, bottom)]


def _arrowed(start: Point, finish: Point) -> list[str]:
    """A fine line with an arrow at either end, upright or level; the arrows shrink where there is no room."""
    across, down = finish[0] - start[0], finish[1] - start[1]
    length = abs(across) + abs(down)
    if length == 0.0:
        return []
    ux, uy = across / length, down / length
    reach = min(_ARROW_MM[0], 0.4 * length)
    half = _ARROW_MM[1] * reach / _ARROW_MM[0]
    arrows = [
        polygon(
            (
                (x, y),
                (x + to * ux * reach - uy * half, y + to * uy * reach + ux * half),
                (x + to * ux * reach + uy * half, y + to * uy * reach - ux * half),
            ),
            fill="#000",
        )
        for (x, y), to in ((start, 1), (finish, -1))
    ]
    return [line(start, finish), *arrows]
