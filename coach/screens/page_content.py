"""A page set as content of a screen."""

from __future__ import annotations

from textual.content import Content

from coach.screens.wording import GAP, Ink, in_columns, joined, one_line, said, wrapped
from coach.telling.page import Line, Page, Section, Table, Tone, is_labelled, margin_of

_BLANK = Content("")


#: From so many cells on, what is told stands beside its labels; below, it runs on after them.
_ROOM_FOR_A_MARGIN = 50
#: A column narrower than this is cut short rather than wrapped.
_LEAST_TO_WRAP = 14
#: A table of more columns than this is folded where even that is not to be had.
_LEAST_TO_FOLD = 2
#: The cells at both sides of the text with its scroll bar, and the widest that a line is read with ease.
_AROUND, _WIDEST = 3, 110


def page_in_window(page: Page, window_width: int) -> Content:
    """A page for a screen that it has to itself, in a window of so many cells."""
    return page_content(page, width_in_window(window_width))


def width_in_window(window_width: int) -> int:
    """The cells that a line of text takes there."""
    return min(window_width - _AROUND, _WIDEST)


def page_content(page: Page, width: int) -> Content:
    """A page for a place this many cells wide."""
    lines: list[Content] = []
    margin = margin_of(page) if width >= _ROOM_FOR_A_MARGIN else 0
    for section in page.sections:
        if lines:
            lines.append(_BLANK)
        lines += section_lines(section, width, margin, hangs=True)
    return joined(lines)


def section_lines(section: Section, width: int, margin: int = 0, *, hangs: bool = False) -> list[Content]:
    """One section under its heading.

    Args:
        section: what is told.
        width: the cells of the terminal that a line may take.
        margin: how wide the margin is that its labels stand in; 0 lets them stand before what they are of.
        hangs: whether what is wrapped stays under its first word, to the right of a sign.
    """
    lines = [one_line(section.heading, Ink.LABEL)] if section.heading else []
    step = 2 if section.heading else 0
    before = ""
    for one in section.body:
        if isinstance(one, Table):
            lines += _table(one, width, step)
        else:
            beside = margin if is_labelled(section) else 0
            shown = one._replace(label="") if beside and one.label == before else one
            lines += _line(shown, width if hangs else 0, step, beside)
            before = one.label
    return lines


def _line(line: Line, width: int, indent: int, margin: int) -> list[Content]:
    """A line beside its label in the margin; where there is no margin it runs on after the label."""
    label = said(f"{line.label:<{margin}}", Ink.BAD if line.tone is Tone.BAD else Ink.LABEL)
    before = Content.assemble(" " * indent, label, "  ") if label else said(" " * indent)
    if line.label and not margin:
        return [Content.assemble(before, said(line.words, Ink[line.tone.name]))]
    return _hanging(line, before, width)


def _hanging(line: Line, before: Content, width: int) -> list[Content]:
    if line.as_it_stands:
        return [one for part in line.words.splitlines() for one in _as_it_stands(part, line.tone, width)]
    if line.mark:
        before = Content.assemble(before, said(f"{line.mark} ", Ink[line.tone.name]))
    words = said(line.words, Ink[line.tone.name])
    if not width:
        return [Content.assemble(before, words)]
    room = max(width - before.cell_length, _LEAST_TO_WRAP)
    lines = [part for paragraph in words.split("\n") for part in wrapped(paragraph, room) or [_BLANK]]
    blank = said(" " * before.cell_length)
    return [Content.assemble(blank if at else before, part) for at, part in enumerate(lines)]


def _as_it_stands(text: str, tone: Tone, width: int) -> list[Content]:
    """A line of a drawing; of a file that changes, what is too long goes on under its own first word."""
    ink = Ink[tone.name]
    if not width or len(text) <= width or text[:1] not in ("+", "-"):
        return [said(text, ink)]
    words = text.lstrip(" +-")
    begins = len(text) - len(words)
    parts = wrapped(said(words, ink), max(width - begins, _LEAST_TO_WRAP))
    return [
        Content.assemble(said(" " * begins if at else text[:begins], ink), one)
        for at, one in enumerate(parts)
    ]


def _table(told: Table, width: int, indent: int) -> list[Content]:
    blank = " " * (indent + 2 * told.indent)
    rows = [[said(head, Ink.QUIET) for head in told.heads]] if told.heads else []
    rows += [[one_line(cell, Ink[row.tone.name]) for cell in row.cells] for row in told.rows]
    rows = [[Content.assemble(blank, row[0]), *row[1:]] for row in rows]
    if not rows:
        return []
    gives = told.gives % len(rows[0])
    wide = [max(row[at].cell_length for row in rows) for at in range(len(rows[0]))]
    room = width - sum(wide) - GAP * (len(wide) - 1) + wide[gives]
    if not told.leaves and room < min(wide[gives], _LEAST_TO_WRAP) and len(wide) > _LEAST_TO_FOLD:
        return _folded(rows, width, len(blank))
    if not told.leaves and _LEAST_TO_WRAP <= room < wide[gives]:
        rows = [part for row in rows for part in _wrapped(row, gives, room)]
    return in_columns(rows, width, gives=gives, leaves=told.leaves)


def _folded(rows: list[list[Content]], width: int, indent: int) -> list[Content]:
    """Rows of which each stands under its first cell, for which there is no room beside the others."""
    blank = said(" " * indent)
    wide = [max(row[at].cell_length for row in rows) for at in range(1, len(rows[0]))]
    if indent + sum(wide) + GAP * len(wide) <= width:
        rest = in_columns([[blank, *row[1:]] for row in rows], width, gives=-1)
    else:  # further left, where that is what lacks
        rest = in_columns([[Content.assemble(blank, row[1]), *row[2:]] for row in rows], width, gives=-1)
    return [part for row, line in zip(rows, rest, strict=True) for part in (row[0].truncate(width), line)]


def _wrapped(row: list[Content], at: int, room: int) -> list[list[Content]]:
    """A row as several, where the text of one column is wrapped."""
    first, *rest = wrapped(row[at], room) or [_BLANK]
    later = [[part if column == at else _BLANK for column in range(len(row))] for part in rest]
    return [[*row[:at], first, *row[at + 1 :]], *later]
