"""The page of what is promised quotes itself, and each promise has a test that is there."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PAGE, _, ROWS = (ROOT / "docs" / "data.md").read_text("utf-8").partition("## What holds each promise")
HELD = re.findall(r"^\| (.+) \| `(tests/\S+)::(test_\w+)` \|$", ROWS, re.MULTILINE)


def paragraphs() -> list[str]:
    """Whatever the page promises in a paragraph or behind a sign of a list, each as one line."""
    listed = re.sub(r"\n(?=- |\d\. )", "\n\n", PAGE)
    found = [" ".join(one.split()) for one in listed.split("\n\n")]
    return [one for one in found if one and not one.startswith(("#", "|"))]


def test_every_row_is_read() -> None:
    assert len(HELD) == ROWS.count("| `tests/") > 40


@pytest.mark.parametrize(("promise", "file", "name"), HELD)
def test_a_promise_stands_on_the_page_and_its_test_is_there(promise: str, file: str, name: str) -> None:
    assert promise in " ".join(PAGE.split())
    tree = ast.parse((ROOT / file).read_text("utf-8"))
    assert name in [one.name for one in tree.body if isinstance(one, ast.FunctionDef)]


@pytest.mark.parametrize("told", paragraphs()[1:])
def test_no_promise_is_without_a_test(told: str) -> None:
    if told.endswith(":"):  # it says what the list behind it is of
        return
    assert [promise for promise, *_ in HELD if promise in told], told
