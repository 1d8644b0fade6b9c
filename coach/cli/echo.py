"""What a recipe is taken to say, set in lines, with a picture of each finished piece."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import indent
from typing import TYPE_CHECKING

from coach.cli.page import WIDTH, table
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.understood import Understood
    from coach.ledger.plan import Plan

_INDENT = "  "
#: Both views of a finished piece, with its lengths (our choice).
_PICTURE_ROWS = 10


def echo_lines(understood: Sequence[Understood], shown: Shown) -> list[str]:
    """A row a line: where it stands, what it is of, what it is taken to say."""
    rows = ((f"line {one.line}" if one.line else "", one.what, write(one.words, shown)) for one in understood)
    return table(rows)


def drawn_pieces(plan: Plan, shown: Shown) -> tuple[str, ...]:
    """The finished pieces to scale, as lines of text; none of what cannot be drawn."""
    from coach.drawing.braille import stacked
    from coach.drawing.cells import as_text
    from coach.drawing.job import finished_views, host_pieces

    found = []
    for piece in host_pieces(plan):
        room = WIDTH - len(_INDENT)
        lines = as_text(stacked(finished_views(plan, piece), (), room, _PICTURE_ROWS, shown=shown))
        if lines:
            found += [f"{piece}, finished:", *indent(lines, _INDENT).splitlines()]
    return tuple(found)
