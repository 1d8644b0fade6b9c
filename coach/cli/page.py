"""Lines of plain text that fit a terminal of eighty columns, a pipe and a printer."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

from coach.cli.painting import INDENT, swatched
from coach.telling.page import Line, Page, Table, is_labelled, margin_of

WIDTH = 80
GAP = "  "
#: A last column with less room than this goes on under the middle of the line.
_LEAST_TO_WRAP = 14


def paragraph(text: str, indent: str = "", first: str | None = None) -> list[str]:
    """A text broken into lines; `first` stands before the first of them instead of the indent."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=indent if first is None else first,
        subsequent_indent=indent,
        break_on_hyphens=False,
    )


def table(
    rows: Iterable[Sequence[str]], heads: Sequence[str] = (), indent: str = GAP, gives: int = -1
) -> list[str]:
    """Rows in columns as wide as their widest cell; the last column is wrapped to what is left.

    Another column that `gives` is wrapped before the last one is.
    """
    cells = [list(row) for row in rows]
    if not cells:
        return []
    if heads:
        cells.insert(0, list(heads))
    if gives >= 0:
        cells = _wrapped(cells, gives, WIDTH - len(indent))
    widths = [max(len(row[column]) for row in cells) for column in range(len(cells[0]) - 1)]
    lines: list[str] = []
    for row in cells:
        start = indent + "".join(f"{cell:<{width}}{GAP}" for cell, width in zip(row, widths, strict=False))
        rest = " " * (len(start) if WIDTH - len(start) >= _LEAST_TO_WRAP else WIDTH // 2)
        lines += paragraph(row[-1], rest, start) if row[-1].strip() else [start.rstrip()]
    return lines


def _wrapped(cells: list[list[str]], gives: int, width: int) -> list[list[str]]:
    """Rows that find room in a width, the text of one column going on in rows of its own below."""
    widths = [max(len(row[column]) for row in cells) for column in range(len(cells[0]))]
    room = width - sum(widths) - len(GAP) * (len(widths) - 1) + widths[gives]
    found = []
    for row in cells:
        parts = textwrap.wrap(row[gives], max(room, _LEAST_TO_WRAP)) or [""]
        found.append([*row[:gives], parts[0], *row[gives + 1 :]])
        blank = [""] * len(row)
        found += [[*blank[:gives], part, *blank[gives + 1 :]] for part in parts[1:]]
    return found


def set_page(page: Page) -> list[str]:
    """A page in lines of eighty columns; its labels stand in one margin, each told once in a row."""
    lines: list[str] = []
    margin = margin_of(page)
    for section in page.sections:
        if lines:
            lines.append("")
        if section.heading:
            lines += paragraph(section.heading)
        wide = margin if is_labelled(section) else 0
        step = GAP if section.heading else ""
        before = ""
        for one in section.body:
            if isinstance(one, Table):
                lines += _set_table(one, step)
            else:
                lines += _set_line(one._replace(label="") if one.label == before else one, step, wide)
                before = one.label
    return lines


def _set_line(line: Line, indent: str, wide: int) -> list[str]:
    if line.as_it_stands:
        return line.words.splitlines()
    margin = f"{line.label:<{wide}}{GAP}" if wide else ""
    mark = f"{line.mark} " if line.mark else ""
    lines: list[str] = []
    for part in line.words.splitlines() or [""]:
        before = f"{indent}{margin}{mark}" if not lines else " " * len(f"{indent}{margin}{mark}")
        lines += paragraph(part, " " * len(before), before)
    if line.swatch is not None:
        return swatched([INDENT + one for one in lines], [line.swatch])
    return lines


def _set_table(told: Table, indent: str) -> list[str]:
    indent += GAP * told.indent
    colours = [row.swatch for row in told.rows if row.swatch is not None]
    lines = table([row.cells for row in told.rows], told.heads, INDENT if colours else indent, told.gives)
    return swatched(lines, colours) if colours else lines
