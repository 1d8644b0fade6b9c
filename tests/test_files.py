"""What is read from outside is an ordinary file of a bounded size, or is refused."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coach.files import text_of
from coach.metals.grade_file import GradeFaults, read_grade
from coach.recipe.own_file import write_own


def test_a_file_that_is_larger_than_any_of_its_kind_is_refused_without_reading_it(tmp_path: Path) -> None:
    huge = tmp_path / "huge.toml"
    with huge.open("wb") as file:
        file.truncate(5_000_000_000_000)  # that no memory holds; the disk keeps none of it
    with pytest.raises(OSError, match="it is too large"):
        text_of(huge)
    with pytest.raises(GradeFaults, match=r"huge\.toml: the file cannot be read: it is too large"):
        read_grade(huge)


def test_a_file_as_large_as_may_be_is_read(tmp_path: Path) -> None:
    path = tmp_path / "note"
    path.write_text("abc", encoding="utf-8")
    assert text_of(path, 3) == "abc"
    with pytest.raises(OSError, match="it is too large"):
        text_of(path, 2)


def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match="it is no ordinary file"):
        text_of(tmp_path / "pipe")


def test_a_recipe_of_ones_own_is_not_called_like_a_device_of_windows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coach.files.IS_WINDOWS", True)
    assert write_own(tmp_path, "con", "a").name == "con-2.yaml"
    assert write_own(tmp_path, "con", "b").name == "con-3.yaml"
    assert write_own(tmp_path, "hook", "c").name == "hook.yaml"
