"""Text for the screens: what people typed or files hold is shown as it stands, never read as markup."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import TypeAlias

from textual.content import Content

from coach.telling.harmless import harmless_lines


class Ink(StrEnum):
    """The style of a text; each tone of a page has the one of its name."""

    PLAIN = ""
    LABEL = "$text-secondary"
    STRONG = "bold"
    QUIET = "$text-muted"
    GOOD = "bold $text-success"
    CARE = "bold $text-warning"
    BAD = "bold $text-error"


Rows: TypeAlias = Sequence[Sequence[Content]]
#: A sign and a style for each word, so that colour is never the only sign.
_MARKS = {
    "good": ("✓", Ink.GOOD),
    "more to go": ("»", Ink.CARE),
    "unsure": ("?", Ink.CARE),
    "take again": ("?", Ink.BAD),
    "gone past": ("✗", Ink.BAD),
    "past step": ("!", Ink.CARE),
    "out": ("✗", Ink.BAD),
    "under": ("<", Ink.BAD),
    "over": (">", Ink.BAD),
    "seems good": ("?", Ink.CARE),
    "seems under": ("?", Ink.CARE),
    "seems over": ("?", Ink.CARE),
    "on plan": ("✓", Ink.GOOD),
    "tight": ("~", Ink.CARE),
    "off plan": ("✗", Ink.BAD),
}
GAP = 2
#: A number and its unit, and a sign before what it begins, stay in one line (common practice, no source).
_TOGETHER = re.compile(r"(?<=\d) (?=±|(?:mm|cm|cm³|in|g|kg|lb|oz|s|min|h|HRC)\b|%|°)|(?<= ·) (?=\S)")
#: Stands for a blank at which no line ends; it reaches no screen.
_UNBROKEN = "\N{BRAILLE PATTERN BLANK}"
#: A column is cut short by so many cells before another is left out for it, and never below the second.
_GIVES_FIRST, _LEAST = 4, 8


def said(text: str, style: str = "") -> Content:
    """Text on any number of lines, kept as it was written."""
    text = harmless_lines(text)
    return Content.styled(text, style) if style else Content(text)


def one_line(text: str, style: str = "", *, indent: int = 0) -> Content:
    """Text with every run of blanks, line ends included, made one space; `indent` blanks before it."""
    return said(" " * indent + " ".join(text.split()), style)


def wrapped(content: Content, width: int) -> list[Content]:
    """A text in lines so wide, none of which ends between a number and its unit.

    >>> [line.plain for line in wrapped(Content("the least is 9 mm"), 15)]
    ['the least is', '9 mm']
    """
    text = _TOGETHER.sub(_UNBROKEN, content.plain)
    lines = Content(text, spans=[*content.spans]).wrap(width)
    return [Content(line.plain.replace(_UNBROKEN, " "), spans=[*line.spans]) for line in lines]


def in_signs(chance: str) -> str:
    """A chance with signs for words, as it stands on a face and in a table.

    >>> in_signs("over 99 %"), in_signs("97 %")
    ('>99 %', '97 %')
    """
    return chance.replace("over ", ">").replace("under ", "<")


def titled(title: str, text: Content | str) -> Content:
    """Text behind a word that says what it is."""
    return Content.assemble(one_line(title, Ink.LABEL), "  ", said(text) if isinstance(text, str) else text)


def marked(word: str, capital: bool = False) -> Content:
    """A verdict as its sign, its word and its colour."""
    sign, style = _MARKS.get(word, ("·", ""))
    return said(f"{sign} {word.upper() if capital else word}", style)


def joined(parts: Iterable[Content], between: str = "\n") -> Content:
    """Pieces of text with the same thing between each two."""
    return Content(between).join(list(parts))


def in_columns(rows: Rows, width: int, *, gives: int = 0, leaves: Sequence[int] = ()) -> list[Content]:
    """Rows with their columns aligned, made to fit.

    Args:
        rows: cells, the same number in each row.
        width: the cells of the terminal that a row may take.
        gives: the column that is cut short when the rest does not fit.
        leaves: columns to leave out, the first first, before anything is cut much shorter.
    """
    if not rows:
        return []
    kept = list(range(len(rows[0])))
    wide = [max(row[column].cell_length for row in rows) for column in kept]
    for column in leaves:
        if _across(wide, kept) - width <= min(_GIVES_FIRST, max(wide[gives] - _LEAST, 0)):
            break
        kept.remove(column)
    over = _across(wide, kept) - width
    if over > 0:
        wide[gives] = max(wide[gives] - over, min(wide[gives], _LEAST))
    space = Content(" " * GAP)
    return [
        space.join([row[column].truncate(wide[column], ellipsis=True, pad=True) for column in kept]).truncate(
            max(width, 1), ellipsis=True
        )
        for row in rows
    ]


def _across(wide: Sequence[int], kept: Sequence[int]) -> int:
    return sum(wide[column] for column in kept) + GAP * (len(kept) - 1)
