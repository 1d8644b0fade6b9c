"""Text on its way to the screen keeps every character, and columns fit their place."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.screens.wording import in_columns, marked, one_line, said


@pytest.mark.parametrize("text", ["[/", "[/b]", "[b]x[/b]", "len [mm]", '1-3/8" [tip]', "[link=http://x]y"])
def test_brackets_are_text(text: str) -> None:
    assert said(text).plain == text
    assert one_line(text, "bold").plain == text


def test_line_ends_become_blanks_on_one_line() -> None:
    assert one_line(" a\n b\t c ").plain == "a b c"


@pytest.mark.parametrize(
    ("word", "shown"),
    [
        ("good", "✓ good"),
        ("more to go", "» more to go"),
        ("gone past", "✗ gone past"),
        ("tight", "~ tight"),
        ("other", "· other"),
    ],
)
def test_a_verdict_has_a_sign_and_its_word(word: str, shown: str) -> None:
    assert marked(word).plain == shown


def test_no_two_verdicts_that_differ_in_kind_share_a_sign() -> None:
    signs = [marked(word).plain[0] for word in ("good", "more to go", "gone past", "unsure")]
    assert len(set(signs)) == len(signs)


def test_columns_are_aligned() -> None:
    rows = [[one_line("a"), one_line("one")], [one_line("longer"), one_line("two")]]
    assert [line.plain for line in in_columns(rows, 40)] == ["a       one", "longer  two"]


def test_columns_that_may_go_leave_before_one_is_cut_short() -> None:
    rows = [[one_line("blade thickness"), one_line("28 ±1 mm"), one_line("good")]]
    assert in_columns(rows, 24, leaves=(1,))[0].plain == "blade thickness  good"
    assert in_columns(rows, 16, leaves=(1,))[0].plain == "blade thi…  good"


@given(
    st.lists(st.lists(st.text(max_size=30), min_size=3, max_size=3), min_size=1, max_size=5),
    st.integers(min_value=1, max_value=90),
)
def test_no_row_is_wider_than_its_place(texts: list[list[str]], width: int) -> None:
    rows = [[one_line(text) for text in row] for row in texts]
    for line in in_columns(rows, width, leaves=(1,)):
        assert line.cell_length <= width


def test_columns_that_fit_all_stay() -> None:
    rows = [[one_line("a"), one_line("28 ±1 mm"), one_line("good")]]
    assert in_columns(rows, 17, leaves=(1,))[0].plain == "a  28 ±1 mm  good"
