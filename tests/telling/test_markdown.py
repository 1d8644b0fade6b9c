"""A page as Markdown: what a reader of CommonMark makes of it is the page again."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from coach.telling.markdown import page_markdown
from coach.telling.page import Line, Page, Section, page, section, table

#: Whatever a smith may type on one line.
TYPED = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs", "Zl", "Zp", "Cf"]), max_size=40)


def read(told: Page) -> str:
    """The page as HTML, as CommonMark with tables has it."""
    return str(MarkdownIt("commonmark").enable("table").render(page_markdown("A tool", told)))


def cells(told: Page) -> list[list[str]]:
    """The cells of every row of its tables, as text."""
    tokens = MarkdownIt("commonmark").enable("table").parse(page_markdown("A tool", told))
    rows: list[list[str]] = []
    for before, token in pairwise(tokens):
        if token.type == "tr_open":
            rows.append([])
        if before.type in ("th_open", "td_open"):
            rows[-1].append("".join(part.content for part in token.children or ()))
    return rows


def test_headings_paragraphs_and_tables_are_read_as_such() -> None:
    html = read(page(section("Sizes", [Line("as drawn"), table([("a", "1")], ("size", "came"))])))
    assert "<h1>A tool</h1>" in html
    assert "<h2>Sizes</h2>" in html
    assert "<p>as drawn</p>" in html
    assert "<th>size</th>" in html
    assert "<td>1</td>" in html


def test_a_table_without_heads_is_whole_all_the_same() -> None:
    assert "<td>a</td>" in read(page(section("", [table([("a", "1"), ("b", "2")])])))


@given(st.lists(st.tuples(TYPED, TYPED), min_size=1, max_size=4))
def test_every_row_of_a_table_has_every_cell_with_what_was_typed(rows: list[tuple[str, str]]) -> None:
    found = cells(Page((Section("", (table(rows, ("one", "other")),)),)))
    assert found == [["one", "other"], *([" ".join(cell.split()) for cell in row] for row in rows)]


@given(TYPED.filter(str.strip))
def test_what_was_typed_is_a_paragraph_and_nothing_else(typed: str) -> None:
    markdown = page_markdown("A tool", Page((Section("", (Line(typed),)),)))
    tokens = MarkdownIt("commonmark").enable("table").parse(markdown)
    assert [token.type for token in tokens[3:]] == ["paragraph_open", "inline", "paragraph_close"]
    assert "".join(part.content for part in tokens[4].children or ()) == " ".join(typed.split())


def test_a_picture_stands_as_it_was_drawn() -> None:
    told = page(section("", [Line("  a | b\n```\n*c*", as_it_stands=True)]))
    assert '<pre><code class="language-text">  a | b\n```\n*c*\n</code></pre>' in read(told)
