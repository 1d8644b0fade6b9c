"""A file of choices that cannot be read, whatever is in it, leaves the usual ones."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.screens.choices import Choices, kept_choices


@pytest.mark.parametrize(
    "held",
    [
        b"",
        b"[" * 100_000,
        b"[]",
        b'{"look": 3, "gauge": ["rule"]}',
        b'{"look": "none such"}',
        b"\xff",
        b"\x00" * 300_000,
    ],
    ids=["empty", "deep", "a list", "numbers", "unknown", "no text", "large"],
)
def test_what_is_no_choice_leaves_the_usual(tmp_path: Path, held: bytes) -> None:
    file = tmp_path / "screens.json"
    file.write_bytes(held)
    assert kept_choices(file) == Choices()
