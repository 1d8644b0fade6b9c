"""A page as rows for a spreadsheet, in which no cell is a formula."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator

from coach.telling.harmless import harmless
from coach.telling.page import Line, Page, Section

#: What makes a formula of a cell where it stands first, in the full width of eastern letters as well
#: (OWASP, "CSV Injection", from memory).
_FORMULA = tuple("=+-@\t\r\n＝＋－＠")

#: Where a file's cells are parted by another sign than the comma, and what follows would be a formula.
_BEHIND_A_SIGN = re.compile(rf"[;|\t][ \"']*(?=[{re.escape(''.join(_FORMULA).strip())}])")


def page_csv(title: str, told: Page) -> str:
    """Each line and each row of a table as a row, behind the heading that it stands under."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")  # RFC 4180, section 2
    writer.writerow([cell("Title"), cell(title)])
    for part in told.sections:
        for row in _rows(part):
            writer.writerow([cell(part.heading or title), *map(cell, row)])
    return out.getvalue()


def _rows(part: Section) -> Iterator[tuple[str, ...]]:
    for one in part.body:
        if isinstance(one, Line):
            yield from ((line,) for line in one.words.splitlines() if not one.as_it_stands)
            continue
        if one.heads:
            yield tuple(head.strip() for head in one.heads)
        for row in one.rows:
            yield tuple(text.strip() for text in row.cells)


def cell(text: str) -> str:
    """A text as a spreadsheet shows it and never runs it: an apostrophe keeps what looks like a formula.

    So it does behind what parts cells in other countries' files.

    >>> cell("=1+1"), cell(" -2 mm"), cell("8.4 mm"), cell("a;=1+1")
    ("'=1+1", "' -2 mm", '8.4 mm', "a;'=1+1")
    """
    kept = _BEHIND_A_SIGN.sub(r"\g<0>'", harmless(" ".join(text.splitlines())))
    return f"'{kept}" if text.startswith(_FORMULA) or kept.strip().startswith(_FORMULA) else kept
