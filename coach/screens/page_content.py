"""A page set as content of a screen."""

from __future__ import annotations

from textual.content import Content

from coach.screens.wording import BAD, LABEL, QUIET, STRONG, in_columns, joined, one_line, said
from coach.telling.page import Line, Page, Section, Table, Tone

_STYLES = {
    Tone.PLAIN: "",
    Tone.STRONG: STRONG,
    Tone.QUIET: QUIET,
    Tone.GOOD: "bold $text-success",
    Tone.CARE: "bold $text-warning",
    Tone.BAD: BAD,
}
_BLANK = Content("")


def page_content(page: Page, width: int) -> Content:
    """A page for a place this many cells wide."""
    lines: list[Content] = []
    for section in page.sections:
        if lines:
            lines.append(_BLANK)
        lines += section_lines(section, width)
    return joined(lines)


def section_lines(section: Section, width: int) -> list[Content]:
    """One section under its heading."""
    lines = [one_line(section.heading, LABEL)] if section.heading else []
    step = 2 if section.heading else 0
    for one in section.body:
        lines += _table(one, width, step) if isinstance(one, Table) else [_line(one, step)]
    return lines


def _line(line: Line, indent: int) -> Content:
    style = _STYLES[line.tone]
    parts: list[Content | tuple[str, str]] = [said(" " * indent)]
    if line.label:
        parts += [(line.label, BAD if line.tone is Tone.BAD else LABEL), said("  ")]
    if line.mark:
        parts.append(said(f"{line.mark} "))
    return Content.assemble(*parts, said(line.words, style))


def _table(told: Table, width: int, indent: int) -> list[Content]:
    blank = " " * (indent + 2 * told.indent)
    rows = [[said(head, QUIET) for head in told.heads]] if told.heads else []
    rows += [[one_line(cell, _STYLES[row.tone]) for cell in row.cells] for row in told.rows]
    rows = [[Content.assemble(blank, row[0]), *row[1:]] for row in rows]
    return in_columns(rows, width, gives=told.gives % len(rows[0]), leaves=told.leaves) if rows else []
