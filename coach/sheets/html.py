"""A page as HTML that is whole in itself: no script, no other file, nothing fetched, every text escaped."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape
from pathlib import Path

from coach.telling.harmless import harmless
from coach.telling.page import Line, Page, Row, Section, Table, Tone

#: What XML has no place for, escaped or not (XML 1.0, fifth edition, section 2.2, from memory).
_NO_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")


def text(words: str) -> str:
    """Words as they may stand between tags and in a value: nothing in them is a tag.

    >>> text('<b> & "x"')
    '&lt;b&gt; &amp; &quot;x&quot;'
    """
    return escape(_NO_XML.sub("\N{REPLACEMENT CHARACTER}", harmless(words)))


def document(title: str, body: str, *, classes: str = "") -> str:
    """A whole page; it prints on A4 and on Letter as it is."""
    css = Path(__file__).with_name("paper.css").read_text(encoding="utf-8")
    of_class = f' class="{text(classes)}"' if classes else ""
    return (
        '<!DOCTYPE html>\n<html lang="en" xmlns="http://www.w3.org/1999/xhtml">\n<head>\n'
        '<meta charset="utf-8"/>\n<meta name="viewport" content="width=device-width, initial-scale=1"/>\n'
        f"<title>{text(title)}</title>\n<style>\n{css}</style>\n</head>\n<body{of_class}>\n{body}"
        "</body>\n</html>\n"
    )


def page_html(told: Page) -> str:
    """Sections one after another."""
    return "".join(section_html(part) for part in told.sections)


def section_html(part: Section, classes: str = "", then: str = "") -> str:
    """What stands under one heading; `then` is HTML that follows it there."""
    head = f"<h2>{text(part.heading)}</h2>\n" if part.heading else ""
    of_class = f' class="{text(classes)}"' if classes else ""
    return f"<section{of_class}>\n{head}{body_html(part.body)}{then}</section>\n"


def body_html(body: Iterable[Line | Table]) -> str:
    """Lines and tables in their order; lines with one sign before them are a list."""
    parts: list[str] = []
    points: list[str] = []
    for one in [*body, None]:
        if isinstance(one, Line) and one.mark in ("-", "•"):
            points.append(f"<li{_tone(one.tone)}>{_words(one)}</li>\n")
            continue
        if points:
            parts.append(f"<ul>\n{''.join(points)}</ul>\n")
            points = []
        if isinstance(one, Table):
            parts.append(table_html(one))
        elif one is not None and one.as_it_stands:
            parts.append(f"<pre>{escape(_NO_XML.sub('', one.words))}</pre>\n")
        elif one is not None and one.words:
            parts.append(f"<p{_tone(one.tone)}>{_words(one)}</p>\n")
    return "".join(parts)


def table_html(told: Table) -> str:
    """Rows in columns."""
    head = ""
    if told.heads:
        cells = "".join(f"<th>{text(cell.strip())}</th>" for cell in told.heads)
        head = f"<thead><tr>{cells}</tr></thead>\n"
    wide = max((len(row.cells) for row in told.rows), default=0)
    return (
        f'<table class="columns-{wide}">\n{head}<tbody>\n{"".join(map(_row, told.rows))}</tbody>\n</table>\n'
    )


def _row(row: Row) -> str:
    cells = "".join(f"<td>{text(cell.strip())}</td>" for cell in row.cells)
    return f"<tr{_tone(row.tone)}>{cells}</tr>\n"


def _words(line: Line) -> str:
    label = f"<b>{text(line.label)}</b> " if line.label else ""
    mark = f"{text(line.mark)} " if line.mark and line.mark not in ("-", "•") else ""
    return label + mark + "<br/>".join(map(text, line.words.splitlines()))


def _tone(tone: Tone) -> str:
    return "" if tone is Tone.PLAIN else f' class="{tone.value}"'


def inline_svg(drawn: str) -> str:
    """A drawing as it stands in a page."""
    return f'<div class="drawing">{drawn.strip()}</div>\n'
