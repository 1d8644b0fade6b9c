"""Lines of plain text that fit a terminal of eighty columns, a pipe and a printer."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Sequence
from datetime import datetime

WIDTH = 80
GAP = "  "
# Control characters move the cursor and worse; the others reverse the direction of writing.
_UNSAFE = re.compile("[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


def safe(text: str) -> str:
    """A line that a terminal shows as it stands, whoever wrote it."""
    return _UNSAFE.sub("\N{REPLACEMENT CHARACTER}", text)


def paragraph(text: str, indent: str = "", first: str | None = None) -> list[str]:
    """A text broken into lines; `first` stands before the first of them instead of the indent."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=indent if first is None else first,
        subsequent_indent=indent,
        break_on_hyphens=False,
    )


def named(name: str, text: str, width: int = 10) -> list[str]:
    """A text with its name in the margin, nothing when the text is empty."""
    if not text.strip():
        return []
    indent = " " * (width + len(GAP))
    lines: list[str] = []
    for part in text.splitlines():
        first = f"{name:<{width}}{GAP}" if not lines else indent
        lines += paragraph(part, indent, first)
    return lines


def table(rows: Iterable[Sequence[str]], heads: Sequence[str] = (), indent: str = GAP) -> list[str]:
    """Rows in columns as wide as their widest cell; the last column is wrapped to what is left."""
    cells = [list(row) for row in rows]
    if not cells:
        return []
    if heads:
        cells.insert(0, list(heads))
    widths = [max(len(row[column]) for row in cells) for column in range(len(cells[0]) - 1)]
    lines: list[str] = []
    for row in cells:
        start = indent + "".join(f"{cell:<{width}}{GAP}" for cell, width in zip(row, widths, strict=False))
        rest = " " * min(len(start), WIDTH // 2)
        lines += paragraph(row[-1], rest, start) if row[-1].strip() else [start.rstrip()]
    return lines


def headed(title: str, lines: Sequence[str]) -> list[str]:
    """A part of the page under its title, with a blank line before it; nothing when it is empty."""
    return ["", title, *lines] if lines else []


def moment(at: str) -> str:
    """A moment of the log as the clock on the wall showed it: `2026-11-25 09:30`."""
    return f"{datetime.fromisoformat(at).astimezone():%Y-%m-%d %H:%M}" if at else ""
