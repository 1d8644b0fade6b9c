"""A log whose layout was damaged beyond being text is told as damaged, however it is opened."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.log.errors import LogDamaged
from coach.log.jobs import Log
from coach.log.newest import newest_of_all


@pytest.mark.parametrize("harm", [b"\xff", b"\xc3(", b"\x80"], ids=["never", "half", "inside"])
@pytest.mark.parametrize("where", [b"CREATE TABLE entries", b"CREATE INDEX beginnings", b"CREATE TRIGGER"])
def test_a_layout_that_is_no_text_is_told_as_damage(tmp_path: Path, where: bytes, harm: bytes) -> None:
    path = tmp_path / "shop.sqlite"
    with Log(path):
        pass
    held = path.read_bytes()
    path.write_bytes(held.replace(where, where[: -len(harm)] + harm))
    for how in ({}, {"read_only": True, "whole": False}):
        with pytest.raises(LogDamaged):
            Log(path, **how)
    with pytest.raises(LogDamaged):
        newest_of_all(path)
