"""A page set in lines of eighty columns."""

from __future__ import annotations

from coach.cli.page import set_page
from coach.telling.page import Line, Page, Section, Table, page, section, table

LONG = "drive it down a little at a time and look at it from both ends before the next blow falls on it"


def test_labels_of_all_sections_stand_in_one_margin() -> None:
    first = Section("One", (Line("cold", "Do"),))
    second = Section("Two", (Line("10 mm", "To size"), Line("warm", "Do")))
    assert set_page(Page((first, second))) == [
        "One",
        "  Do       cold",
        "",
        "Two",
        "  To size  10 mm",
        "  Do       warm",
    ]


def test_a_label_is_told_once_in_a_row_and_long_lines_stay_in_their_margin() -> None:
    told = set_page(page(section("", [Line(LONG, "Know"), Line("and so on", "Know")])))
    assert told[0].startswith("Know  drive it down")
    assert all(line.startswith("      ") for line in told[1:])
    assert told[-1] == "      and so on"
    assert all(len(line) <= 80 for line in told)


def test_a_sign_stands_before_its_line_and_the_rest_hangs_under_it() -> None:
    told = set_page(page(section("Tools", [Line(LONG, mark="-")])))
    assert told[1].startswith("  - drive")
    assert told[2].startswith("    ")


def test_the_last_column_of_a_table_is_wrapped_and_nothing_is_cut() -> None:
    told = set_page(page(section("Marks", [table([("mark at 120 mm", LONG)], indent=1)])))
    assert all(len(line) <= 80 for line in told)
    assert " ".join(" ".join(told[1:]).split()) == f"mark at 120 mm {LONG}"


def test_what_says_nothing_is_left_out() -> None:
    assert set_page(page(section("Empty", [Line(""), Table(()), None]))) == []


def test_a_last_column_with_little_room_goes_on_under_itself() -> None:
    row = ("poll length", "19/32 to 13/16 in", "23/32 ±1/16 in, over", "1/8 in (at least 3/32 in)")
    told = set_page(page(section("Sizes", [table([row])])))
    at = told[1].index("1/8 in")
    assert told[2].index(told[2].strip()) == at
    assert all(len(line) <= 80 for line in told)
