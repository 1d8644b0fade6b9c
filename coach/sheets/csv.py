"""Rows for a spreadsheet under one head, in which no cell is a formula."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from coach.telling.harmless import harmless

#: What makes a formula of a cell where it stands first, in the full width of eastern letters as well
#: (OWASP, "CSV Injection", from memory).
_FORMULA = tuple("=+-@\t\r\n＝＋－＠")

#: Where a file's cells are parted by another sign than the comma, and what follows would be a formula.
_BEHIND_A_SIGN = re.compile(rf"[;|\t][ \"']*(?=[{re.escape(''.join(_FORMULA).strip())}])")


class TableRow(NamedTuple):
    """One row of a table: its texts in their columns, and its numbers by the names of theirs."""

    texts: tuple[str, ...]
    numbers: Mapping[str, str] = {}  # by a column's name with its unit, such as `came (mm)`


def table_csv(
    heads: Sequence[str], rows: Iterable[TableRow], rank: Callable[[str], tuple[int, ...]] = lambda _: ()
) -> str:
    """One table under one row of heads: the columns of text, then each column of numbers that a row has.

    Those stand by their rank, and by when a row first has them where that is the same.
    """
    listed = list(rows)
    counted = sorted(dict.fromkeys(name for row in listed for name in row.numbers), key=rank)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")  # RFC 4180, section 2
    writer.writerow([*map(cell, heads), *counted])
    for row in listed:
        texts = [*row.texts, *[""] * (len(heads) - len(row.texts))]
        writer.writerow([cell(one) for one in (*texts, *(row.numbers.get(name, "") for name in counted))])
    return out.getvalue()


def cell(text: str) -> str:
    """A text as a spreadsheet shows it and never runs it: an apostrophe keeps what looks like a formula.

    So it does behind what parts cells in other countries' files.

    >>> cell("=1+1"), cell(" -2 mm"), cell("8.4 mm"), cell("a;=1+1")
    ("'=1+1", "' -2 mm", '8.4 mm', "a;'=1+1")
    """
    kept = _BEHIND_A_SIGN.sub(r"\g<0>'", harmless(" ".join(text.splitlines())))
    return f"'{kept}" if text.startswith(_FORMULA) or kept.strip().startswith(_FORMULA) else kept
