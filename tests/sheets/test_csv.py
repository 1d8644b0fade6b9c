"""Rows for a spreadsheet: whole, read back as they were told, and no cell of them a formula."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.sheets.csv import TableRow, cell, table_csv

# OWASP, "CSV Injection", from memory: what a spreadsheet takes for a formula where it stands first.
FORMULAS = ("=", "+", "-", "@", "\t", "\r")


def rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("first", FORMULAS)
def test_no_cell_begins_as_a_formula_does(first: str) -> None:
    told = f"{first}cmd|' /C calc'!A0"
    table = table_csv((told, "b"), [TableRow((told, f"  {told}"), {"came (mm)": told})])
    for row in rows(table):
        for one in row:
            assert not one.lstrip().startswith(FORMULAS), row


@given(st.text())
def test_whatever_stands_in_it_a_cell_is_no_formula_and_one_line(text: str) -> None:
    kept = cell(text)
    assert not kept.lstrip().startswith(FORMULAS)
    assert len(kept.splitlines()) <= 1


def test_what_is_told_is_read_back() -> None:
    table = [
        TableRow(("Sizes, all", '5" bar'), {"came (mm)": "8.1"}),
        TableRow(("Notes", "hot", "short"), {"taken (g)": "12"}),
    ]
    assert rows(table_csv(("kind", "name", "told"), table)) == [
        ["kind", "name", "told", "came (mm)", "taken (g)"],
        ["Sizes, all", '5" bar', "", "8.1", ""],
        ["Notes", "hot", "short", "", "12"],
    ]


@pytest.mark.parametrize("parted", [";", "; ", "|", ';"'])
def test_nor_does_one_where_cells_are_parted_by_another_sign(parted: str) -> None:
    """German and French spreadsheets part the cells of a file by semicolons (common practice, no source)."""
    for first in ("=", "+", "-", "@"):
        text = table_csv(("told",), [TableRow((f"a{parted}{first}cmd|x",))])
        for sign in ";|\t":
            for row in csv.reader(io.StringIO(text, newline=""), delimiter=sign):
                assert not any(one.strip(" \"'").startswith(first) and one.startswith(first) for one in row)
