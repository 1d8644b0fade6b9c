"""Rows for a spreadsheet: whole, read back as they were told, and no cell of them a formula."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.sheets.csv import cell, page_csv
from coach.telling.page import Line, Page, Row, Section, Table

# OWASP, "CSV Injection", from memory: what a spreadsheet takes for a formula where it stands first.
FORMULAS = ("=", "+", "-", "@", "\t", "\r")


def rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("first", FORMULAS)
def test_no_cell_begins_as_a_formula_does(first: str) -> None:
    told = f"{first}cmd|' /C calc'!A0"
    page = Page((Section("Notes", (Line(told), Table((Row((told, f"  {told}")),), (told, "b")))),))
    for row in rows(page_csv(told, page)):
        for one in row:
            assert not one.lstrip().startswith(FORMULAS), row


@given(st.text())
def test_whatever_stands_in_it_a_cell_is_no_formula_and_one_line(text: str) -> None:
    kept = cell(text)
    assert not kept.lstrip().startswith(FORMULAS)
    assert len(kept.splitlines()) <= 1


def test_what_is_told_is_read_back() -> None:
    page = Page((Section("Sizes, all", (Table((Row(('5" bar', "8 ±0.8 mm")),), ("size", "wanted")),)),))
    assert rows(page_csv("Hook", page)) == [
        ["Title", "Hook"],
        ["Sizes, all", "size", "wanted"],
        ["Sizes, all", '5" bar', "8 ±0.8 mm"],
    ]


@pytest.mark.parametrize("parted", [";", "; ", "|", ';"'])
def test_nor_does_one_where_cells_are_parted_by_another_sign(parted: str) -> None:
    """German and French spreadsheets part the cells of a file by semicolons (common practice, no source)."""
    for first in ("=", "+", "-", "@"):
        text = page_csv("Chisel", Page((Section("Notes", (Line(f"a{parted}{first}cmd|x"),)),)))
        for sign in ";|\t":
            for row in csv.reader(io.StringIO(text, newline=""), delimiter=sign):
                assert not any(one.strip(" \"'").startswith(first) and one.startswith(first) for one in row)
