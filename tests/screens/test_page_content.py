"""A page set as content of a screen: the same words at every width, none cut off."""

from __future__ import annotations

import pytest

from coach.screens.page_content import page_content
from coach.telling.page import Line, Page, Row, Section, Table, Tone, page, section, table

LONG = "drive it down a little at a time and look at it from both ends before the next blow falls on it"


def lines(told: Page, width: int) -> list[str]:
    return [line.plain.rstrip() for line in page_content(told, width).split("\n")]


@pytest.mark.parametrize("width", [60, 80, 110])
def test_where_there_is_room_words_stand_beside_their_label(width: int) -> None:
    told = lines(page(section("One", [Line(LONG, "Know"), Line("and so on", "Know")])), width)
    assert told[0] == "One"
    assert told[1].startswith("  Know  drive")
    assert all(line.startswith("        ") for line in told[2:])
    assert all(len(line) <= width for line in told)


def test_where_there_is_little_room_words_run_on_after_their_label() -> None:
    assert lines(page(section("", [Line(LONG, "Know")])), 40) == [f"Know  {LONG}"]


def test_the_column_that_gives_is_wrapped_rather_than_cut() -> None:
    told = lines(page(section("", [table([("mark at 120 mm", LONG), ("mark at 140 mm", "the end")])])), 50)
    assert "…" not in "".join(told)
    assert all(len(line) <= 50 for line in told)
    assert told[0].startswith("mark at 120 mm  drive")
    assert told[1].startswith("                ")
    assert told[-1] == "mark at 140 mm  the end"


def test_a_table_with_columns_to_leave_out_leaves_them_out_first() -> None:
    rows = (Row(("blade end thickness", "10 ±0.8 mm", "10 ±0.7 mm")),)
    told = lines(Page((Section("", (Table(rows, leaves=(1,)),)),)), 34)
    assert told == ["blade end thickness  10 ±0.7 mm"]


def test_a_table_without_room_to_wrap_stands_under_its_first_column_and_loses_nothing() -> None:
    rows = (("eye far hole length", "37.5 ±0.8 mm", "37.5 ±0.7 mm", "2 mm (at least −0.2 mm)"),)
    told = lines(page(section("", [table(rows, ("size", "wanted", "expected", "spare"))])), 57)
    assert told == [
        "size",
        "  wanted        expected      spare",
        "eye far hole length",
        "  37.5 ±0.8 mm  37.5 ±0.7 mm  2 mm (at least −0.2 mm)",
    ]


def test_a_tone_styles_the_words_and_their_sign() -> None:
    told = page_content(page(section("", [Line("too short", mark="!", tone=Tone.BAD)])), 80)
    assert told.plain == "! too short"
    assert {str(span.style) for span in told.spans} == {"bold $text-error"}


def test_a_line_of_a_changed_file_goes_on_under_its_own_words_and_a_drawing_stands_as_it_is() -> None:
    told = lines(page(section("", [Line(f"+    edge: {LONG}\n  |--- 50 mm ---|", as_it_stands=True)])), 60)
    assert told[0].startswith("+    edge: drive")
    assert all(line.startswith("     ") for line in told[1:-1])
    assert told[-1] == "  |--- 50 mm ---|"
    assert all(len(line) <= 60 for line in told)
