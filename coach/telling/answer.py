"""The answer to a question of the reckoner, as its own file tells it, made into a page."""

from __future__ import annotations

from collections.abc import Iterable

from coach.quantities.words import Part, Words
from coach.reckoner.asking.told import Caution, Rows, Swatched, Told, Under, Verbatim
from coach.telling.page import Body, Line, Page, Row, Section, Table, Tone, page, section
from coach.telling.words import sentence, write
from coach.telling.writing import METRIC, Shown


def answer_page(told: Iterable[Told], shown: Shown = METRIC) -> Page:
    """What a question tells of its answer, in the units asked for."""
    sections: list[Section] = []
    loose: list[Body] = []
    for one in told:
        if not isinstance(one, Under | Caution):
            loose.append(_body(one, shown))
            continue
        sections.append(section("", loose))
        loose = []
        if isinstance(one, Caution):
            text = sentence(one.words, shown)
            sections.append(section("", [Line(f"Caution: {text}" if text else "", tone=Tone.CARE)]))
        else:
            steps = 0 if one.heading else 1
            parts = (_body(part, shown, steps) for part in one.parts)
            sections.append(section(write(one.heading, shown), parts))
    return page(*sections, section("", loose))


def _body(told: Told, shown: Shown, steps: int = 1) -> Body:
    if isinstance(told, Rows):
        colours = told.swatches or (None,) * len(told.rows)
        cells = (tuple(_cell(cell, shown) for cell in row) for row in told.rows)
        rows = (Row(row, swatch=rgb) for row, rgb in zip(cells, colours, strict=True))
        return Table(tuple(rows), indent=steps)
    if isinstance(told, Swatched):
        return Line(write(told.words, shown), swatch=told.rgb)
    if isinstance(told, Verbatim):
        return Line(told.text, as_it_stands=True)
    assert isinstance(told, Words | str)
    return Line(sentence(told, shown))


def _cell(cell: Part, shown: Shown) -> str:
    return write(cell if isinstance(cell, Words | str) else Words("{}", (cell,)), shown)
