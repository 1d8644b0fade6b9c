"""The face of a screen: up to four figures in places that never move, read from the anvil.

Each block has a label, a figure and a caption. Shrunk to a quarter, as seen from two metres, no ordinary
letter is read; solid figures and signs of three rows or more are, and patches of colour.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from enum import StrEnum
from typing import NamedTuple

from textual.color import Color
from textual.content import Content
from textual.widget import Widget

from coach.drawing.large import MIDDLE, SMALL, TALL, Stroke, can_draw, large
from coach.screens.wording import Ink, one_line, said


class Weight(StrEnum):
    """How heavy the figure of a block is drawn."""

    HEAVY = "heavy"  # the one that is worked to
    LIGHT = "light"
    SMALL = "small"  # three rows, however much room there is
    SIGN = "sign"  # a size below the figures


class Column(NamedTuple):
    """A column in the metal's own colour, which sinks as the time goes."""

    rgb: tuple[int, int, int] | None  # None where the metal does not glow
    level: float = 1.0  # how much of it is left


class Block(NamedTuple):
    """One thing that is read from the anvil."""

    label: str = ""
    figure: str = ""  # drawn large; letters that have no large form stand as words
    ink: str = Ink.STRONG
    first: str = ""  # beside the figure's first row: its limits
    last: str = ""  # beside its last: its unit
    lines: tuple[str | Content, ...] = ()  # words in the place of a figure
    caption: str = ""
    weight: Weight = Weight.LIGHT
    column: Column | None = None
    narrow: tuple[str, str] = ("", "")  # the label and the caption where there is no room for them

    @property
    def is_empty(self) -> bool:
        """Whether it leaves its place to its neighbour."""
        return not (self.label or self.figure or self.lines or self.caption or self.column)


class Places(NamedTuple):
    """Where the blocks begin in a window of some width, and how wide the column of colour is."""

    from_width: int
    at: tuple[int, ...]  # aim, to go, clock's column
    column: int


#: By the width of the window; the last block always stands at the right end.
PLACES = (
    Places(150, (1, 48, 94), 6),
    Places(118, (1, 37, 70), 5),
    Places(98, (1, 30, 57), 4),
    Places(76, (1, 23, 46), 3),
    Places(58, (1, 17, 33), 1),
    Places(0, (1, 14, 99), 0),
)
#: Rows of the largest figures that stand in a face so many rows high.
_LABEL_AND_CAPTION = 2
#: Between a block's column of colour and its figure, and between two blocks.
_GAP = 1
#: Where two heats stand beside each other their columns leave room for both figures (our choice).
_OF_TWO_HEATS = 2
_STROKES = (Stroke.WIDE, Stroke.HEAVY, Stroke.LIGHT)
_SIGNS = "✓✗~»?○"
_MIXED = re.compile(r"[▼▲]?\d+ \d+/\d+")
_WIDE_STROKES_FROM = 150
#: In a window of fewer rows there is no face at all.
SMALL_FACE_FROM = 16


def rows_of_figures(width: int, height: int) -> int:
    """How many rows the figures of a face have in a window of a size, where its page leaves room for them."""
    if width >= PLACES[2].from_width and height >= 36:
        return TALL
    return MIDDLE if width >= PLACES[3].from_width and height >= 24 else SMALL


def places_at(width: int) -> Places:
    """The places of the blocks in a window so wide."""
    return next(places for places in PLACES if width >= places.from_width)


class Face(Widget, can_focus=False):
    """Blocks drawn as large as the rows that it is given allow."""

    DEFAULT_CSS = "Face { height: 7; }"

    def __init__(self, *, id: str = "face") -> None:
        super().__init__(id=id)
        self._blocks: tuple[Block, ...] = ()

    def show(self, blocks: Sequence[Block], figure_rows: int) -> None:
        """Take other blocks, with figures of so many rows; none at all hide it."""
        same, self._blocks = self._blocks == tuple(blocks), tuple(blocks)
        self.display = bool(figure_rows)
        height = figure_rows + _LABEL_AND_CAPTION
        if self.styles.height is None or self.styles.height.value != height:
            self.styles.height = height
        if not same:
            self.refresh()

    def render(self) -> Content:
        """The blocks at the size there is."""
        width, height = self.size
        lines = face_lines(self._blocks, width, max(height - _LABEL_AND_CAPTION, SMALL))
        return Content("\n").join(lines)


class _Placed(NamedTuple):
    """A block where it begins, and the cells that it may take."""

    begins: int
    room: int
    column: int  # how wide its column of colour is
    block: Block


def face_lines(blocks: Sequence[Block], width: int, figure_rows: int) -> list[Content]:
    """The lines of a face: a row of labels, the figures, a row of captions, none wider than asked for.

    The last block ends at the right end. The others begin at their places; only the second moves, to the
    right, where the first has a long figure and the second still finds room.
    """
    *others, last = blocks or (Block(),)
    at_the_end = _block_lines(last, _first_that_fits(last, figure_rows, width, width), width, 0)
    right = width - 1 - max(line.cell_length for line in at_the_end)
    lines = [Content("")] * (figure_rows + _LABEL_AND_CAPTION)
    for begins, room, wide, block in _placed(others, figure_rows, width, right):
        drawing = _first_that_fits(block, figure_rows, room - _column_room(block, wide), width)
        told = _block_lines(block, drawing, room, wide)
        lines = [_beside(line, begins, one) for line, one in zip(lines, told, strict=True)]
    lines = [
        _beside(line, width - 1 - one.cell_length, one) for line, one in zip(lines, at_the_end, strict=True)
    ]
    return [line.truncate(max(width, 1)) for line in lines]


def _placed(blocks: Sequence[Block], rows: int, width: int, right: int) -> list[_Placed]:
    at = places_at(width)
    kept = [(x, one) for x, one in zip(at.at, blocks, strict=False) if not one.is_empty and x < right]
    if not kept:
        return []
    ends = [*(x for x, _ in kept[1:]), right]
    wide = [at.column] * len(kept)
    if len(kept) > 1:
        (first, aim), (second, beside) = kept[:2]
        if second == at.at[1] and aim.column is not None and beside.column is not None and beside.figure:
            wide[:2] = [min(at.column, _OF_TWO_HEATS)] * 2
        first += _column_room(aim, wide[0])
        room = ends[1] - 3 * _GAP - first - _column_room(beside, wide[1])
        drawing = _leaving_room(aim, beside, rows, width, room)
        apart = _GAP if aim.column is not None else 2 * _GAP
        if beside.figure[:1].isdigit() and aim.figure and not (aim.first or aim.last):  # nothing parts them
            apart = 4 * _GAP
        moved = max(second, first + drawing.width + apart)
        kept[1], ends[0] = (moved, beside), moved
    placed = zip(kept, ends, wide, strict=True)
    return [_Placed(x, end - x - _GAP, column, one) for (x, one), end, column in placed]


class _Drawing(NamedTuple):
    """One way to draw a block's figure: its rows, and whether its limits and its unit found room there."""

    rows: tuple[Content, ...]
    whole: bool = True
    high: int = 0  # of its figure, in rows; 0 where it stands as words

    @property
    def width(self) -> int:
        return max(row.cell_length for row in self.rows)


def _first_that_fits(block: Block, rows: int, room: int, width: int) -> _Drawing:
    drawings = _drawings(block, rows, width)
    return next((one for one in drawings if one.width <= room), drawings[-1])


def _leaving_room(aim: Block, beside: Block, rows: int, width: int, room: int) -> _Drawing:
    """What is worked to, as heavy as leaves room beside it for how far it is to go as a figure too.

    Its limits go to its caption for that. Words do beside it only where it would have to be small itself.
    """
    drawings = _drawings(beside, rows, width)
    least = min((one.width for one in drawings if one.high), default=0)
    if least:
        for one in _drawings(aim, rows, width):
            if one.high == rows and one.width + least <= room:
                return one
    return _first_that_fits(aim, rows, room - min(one.width for one in drawings), width)


def _drawings(block: Block, rows: int, width: int) -> list[_Drawing]:
    """The ways to draw a block's figure, the heaviest first; words last, which may be cut short."""
    lines = block.lines or (block.figure,)
    words = _Drawing(
        _amid([line if isinstance(line, Content) else one_line(line, block.ink) for line in lines], rows)
    )
    if not can_draw(block.figure) or not block.figure:
        return [words]
    told = []
    for high, stroke in _sizes(block.weight, rows, width):
        drawn = _large(block.figure, high, stroke)
        if drawn is None:  # letters stand in three rows alone
            continue
        across = max(map(len, drawn))
        figure = [said(row, block.ink) for row in drawn]
        bare = _Drawing(_amid([row.pad_right(across - row.cell_length) for row in figure], rows), False, high)
        beside = [block.first, *[""] * (len(drawn) - 2), block.last]
        parts = [
            Content.assemble(row.pad_right(across - row.cell_length + 1), one_line(text, Ink.STRONG))
            if text
            else row
            for row, text in zip(figure, beside, strict=True)
        ]
        told += (
            [_Drawing(_amid(parts, rows), True, high), bare]
            if block.first or block.last
            else [bare._replace(whole=True)]
        )
    return [*told, words]


def _large(figure: str, rows: int, stroke: Stroke) -> list[str] | None:
    """A figure in large form, a sign before it maybe larger than it; None where a letter has no such form."""
    first, rest = (figure[0], figure[1:]) if figure[0] in _SIGNS else (figure, "")
    if not rest and _MIXED.fullmatch(figure):  # whole inches are larger than their fraction
        first, _, rest = figure.rpartition(" ")
    try:
        if rows == SMALL or not rest:
            return list(large(figure, rows, stroke))
        high = MIDDLE if rows == TALL else SMALL
        parts = [large(first, rows, stroke), _padded(large(rest, high, Stroke.LIGHT), rows)]
    except KeyError:
        return None
    across = max(map(len, parts[0]))
    return [f"{one:<{across}} {other}".rstrip() for one, other in zip(*parts, strict=True)]


def _padded(drawn: Sequence[str], rows: int) -> list[str]:
    above = (rows - len(drawn)) // 2
    return [""] * above + list(drawn) + [""] * (rows - above - len(drawn))


def _amid(drawn: Sequence[Content], rows: int) -> tuple[Content, ...]:
    """Rows in the middle of so many; where there are more, the first of them."""
    above = max((rows - len(drawn)) // 2, 0)
    return (*[Content("")] * above, *drawn[:rows], *[Content("")] * (rows - above - len(drawn)))


def _sizes(weight: Weight, rows: int, width: int) -> list[tuple[int, Stroke]]:
    """Heights and strokes to try, the heaviest first."""
    if weight is Weight.SMALL or rows < (TALL if weight is Weight.SIGN else MIDDLE):
        return [(SMALL, Stroke.LIGHT)]
    heavy = Stroke.HEAVY if rows < TALL or width < _WIDE_STROKES_FROM else Stroke.WIDE
    most = heavy if weight is Weight.HEAVY or rows >= TALL else Stroke.LIGHT
    return [*((rows, stroke) for stroke in _STROKES if stroke <= most), (SMALL, Stroke.LIGHT)]


def _block_lines(block: Block, drawing: _Drawing, room: int, column: int) -> list[Content]:
    """A block's label, its rows and its caption, none wider than the room."""
    inner = max(room - _column_room(block, column), 1)
    limits = "" if drawing.whole or not block.figure else " ".join(filter(None, (block.first, block.last)))
    narrow_label, narrow_caption = block.narrow
    tells = narrow_caption if narrow_caption and len(block.caption) > inner else block.caption
    caption = shortened(", ".join(part for part in (limits, tells) if part), inner)
    label = shortened(narrow_label if narrow_label and len(block.label) >= inner else block.label, inner)
    told = [one_line(label, Ink.LABEL), *drawing.rows, one_line(caption)]
    told = [part.truncate(inner, ellipsis=True) for part in told]
    if block.column is None or not column:
        return told
    coloured = _column_lines(block.column, column, len(told))
    return [Content.assemble(one, " " * _GAP, part) for one, part in zip(coloured, told, strict=True)]


def shortened(text: str, room: int) -> str:
    """A text that fits into so many cells: what stands behind a comma or a doubt goes, then whole words.

    >>> shortened("light yellow, 1075 °C", 16), shortened("expected 36.6 ±2.9", 15)
    ('light yellow', 'expected 36.6')
    """
    for sign in (", ", " ±"):
        while len(text) > room and sign in text:
            text = text.rpartition(sign)[0]
    if len(text) <= room or " " not in text[:room]:
        return text
    return f"{text[: text.rfind(' ', 0, room)]}…"


def _column_room(block: Block, column: int) -> int:
    return column + _GAP if block.column is not None and column else 0


def _column_lines(column: Column, wide: int, rows: int) -> list[Content]:
    """What is left of the time in the metal's colour, by half rows from the foot; the rest is shaded."""
    halves = round(2 * rows * min(max(column.level, 0.0), 1.0))
    style = Color(*column.rgb).hex if column.rgb is not None else Ink.QUIET.value
    told = []
    for row in range(rows):
        from_foot = 2 * (rows - 1 - row)
        part = "█" if halves >= from_foot + 2 else "▄" if halves == from_foot + 1 else "░"
        told.append(said(part * wide, style if part != "░" else Ink.QUIET))
    return told


def _beside(line: Content, at: int, more: Content) -> Content:
    """A line with more of it from a cell on."""
    return Content.assemble(line, " " * max(at - line.cell_length, 0), more) if more.cell_length else line
