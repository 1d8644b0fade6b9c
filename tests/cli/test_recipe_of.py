"""`coach recipe-of` prints or writes the recipe that a job was forged by, and that passes check."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Coach


def test_it_is_printed_or_written_over_nothing_and_passes_check(coach: Coach, tmp_path: Path) -> None:
    coach("begin", "first-hook", "--name", "hook")
    coach("done", "hook")
    path = tmp_path / "hook.yaml"
    assert coach("recipe-of", "hook", str(path)).code == 0
    assert path.read_text(encoding="utf-8") == coach("recipe-of", "hook").out
    assert ": ok, First hook, 9 steps" in coach("check", str(path)).out
    refused = coach("recipe-of", "hook", str(path))
    assert refused.code
    assert "--force" in refused.err
