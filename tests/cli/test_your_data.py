"""What is entered lies where the page of it says, and can be moved whole to another computer."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Coach


def test_a_copy_laid_in_the_logs_place_on_another_computer_is_the_log(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = coach.job()
    coach("note", job, "the bar leans")
    coach("backups", "--now")
    here = coach("where", job).out, coach("history", job).out
    (copy,) = (coach.home / "data" / "backups").iterdir()
    there = tmp_path / "there" / "data"
    there.mkdir(parents=True)
    shutil.copyfile(copy, there / "shop.sqlite")
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(there.parent))
    assert (coach("where", job).out, coach("history", job).out) == here
    assert coach("note", job, "straight again").code == 0
    assert coach("check-log").code == 0


def test_nothing_lies_anywhere_but_in_the_folders_told_of(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    user, own = tmp_path / "user", tmp_path / "user" / "own"
    own.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(user))
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(own))
    monkeypatch.chdir(tmp_path)
    job = coach.job()
    for words in (("heat", job), ("where", job), ("jobs",), ("rest", job, "--force"), ("backups", "--now")):
        coach(*words)
    assert {path.name for path in own.iterdir()} <= {"data", "config", "log", "cache"}
    shutil.rmtree(own)
    assert [
        path.name for path in tmp_path.rglob("*") if path.is_file() and not path.is_relative_to(coach.home)
    ] == []
