"""A page as Markdown (CommonMark, with tables as GitHub has them), for a file to keep and to show."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from coach.telling.harmless import harmless, harmless_lines
from coach.telling.page import Line, Page, Table

#: What Markdown, or HTML in it, could take for an order.
_ORDERS = re.compile(r"[\\`*_{}\[\]<>#|~&$@]")
#: What it could take for one at the beginning of a line: a list, or the rule under a heading.
_AT_FIRST = re.compile(r"^(\d{0,9})([-+=]|(?<=\d)[.)](?=\s|$))")
#: A fence longer than any run of its marks within.
_FENCE = "````"


def page_markdown(title: str, told: Page) -> str:
    """A page under its title; each line a paragraph or a point of a list, each table whole."""
    parts = [f"# {_text(title)}"]
    for part in told.sections:
        if part.heading:
            parts.append(f"## {_text(part.heading)}")
        parts += _body(part.body)
    return "\n\n".join(parts) + "\n"


def _body(body: Iterable[Line | Table]) -> Iterator[str]:
    for one in body:
        if isinstance(one, Table):
            yield "\n".join(_table(one))
        elif one.as_it_stands:
            yield f"{_FENCE}text\n{harmless_lines(one.words).replace(_FENCE, '')}\n{_FENCE}"
        elif told := _line(one):
            yield told


def _line(line: Line) -> str:
    label = f"**{_text(line.label)}:** " if line.label else ""
    return f"{label}{_text(' '.join(part for part in (line.mark, line.words) if part))}"


def _table(told: Table) -> Iterator[str]:
    wide = len(told.rows[0].cells)
    yield _row(told.heads or [""] * wide)
    yield _row(["---"] * wide, as_it_is=True)
    for row in told.rows:
        yield _row(row.cells)


def _row(cells: Iterable[str], *, as_it_is: bool = False) -> str:
    return f"| {' | '.join(cell if as_it_is else _text(cell) for cell in cells)} |"


def _text(text: str) -> str:
    """A text on one line, every character of it one to look at and none an order.

    >>> _text("1. a *note*")
    '1\\\\. a \\\\*note\\\\*'
    """
    text = _ORDERS.sub(r"\\\g<0>", harmless(" ".join(text.split())))
    return _AT_FIRST.sub(r"\1\\\2", text)
