"""What is made from the code is as the code says: the pages of keys and words, and the schema of recipes."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.write_pages import PAGES


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.name)
def test_a_page_made_from_the_code_is_as_the_code_says(path: Path) -> None:
    assert path.read_text(encoding="utf-8") == PAGES[path](), "run: python -m tests.write_pages"
