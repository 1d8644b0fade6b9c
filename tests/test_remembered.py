"""What was told before is given out again only for the very same, and by the very same program."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach import remembered
from coach.remembered import Memory, program_fingerprint

KEY = ("112", "a digest", None)


def the_file(folder: Path) -> Path:
    [path] = folder.iterdir()
    return path


def test_a_text_is_recalled_as_it_was_kept(tmp_path: Path) -> None:
    text = "Step 3: bend ±2 mm\n\nwith a second line\n"
    Memory(tmp_path / "cache").keep("where hook", KEY, text)
    assert Memory(tmp_path / "cache").recall("where hook", KEY) == text


@pytest.mark.parametrize(
    "key", [("113", "a digest", None), ("112", "another", None), ("112", "a digest", "in")]
)
def test_another_key_recalls_nothing(tmp_path: Path, key: tuple[object, ...]) -> None:
    Memory(tmp_path).keep("where hook", KEY, "told")
    assert Memory(tmp_path).recall("where hook", key) is None
    assert Memory(tmp_path).recall("where axe", KEY) is None


def test_another_program_recalls_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Memory(tmp_path).keep("where hook", KEY, "told")
    monkeypatch.setattr(remembered, "program_fingerprint", lambda: "another")
    assert Memory(tmp_path).recall("where hook", KEY) is None


def test_a_file_altered_by_any_byte_counts_as_forgotten(tmp_path: Path) -> None:
    Memory(tmp_path).keep("where hook", KEY, "told")
    whole = the_file(tmp_path).read_bytes()
    for at in range(len(whole)):
        the_file(tmp_path).write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert Memory(tmp_path).recall("where hook", KEY) is None
    the_file(tmp_path).write_bytes(whole[:-1])
    assert Memory(tmp_path).recall("where hook", KEY) is None


def test_a_folder_that_cannot_be_made_is_only_forgetful(tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file stands here")
    Memory(tmp_path / "cache").keep("where hook", KEY, "told")
    assert Memory(tmp_path / "cache").recall("where hook", KEY) is None


def test_the_oldest_go_when_there_are_too_many(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remembered, "_KEPT", 4)
    for number in range(5):
        Memory(tmp_path).keep(f"job {number}", KEY, "told")
    assert len(list(tmp_path.iterdir())) == 2


def test_any_change_of_a_programs_files_changes_its_fingerprint(tmp_path: Path) -> None:
    def now() -> str:
        return program_fingerprint(tmp_path)

    told = {now()}
    (tmp_path / "rooms").mkdir()
    (tmp_path / "rooms" / "one.py").write_text("one = 1\n")
    told.add(now())
    (tmp_path / "rooms" / "one.py").write_text("one = 10\n")
    told.add(now())
    (tmp_path / "rooms" / "two.toml").write_text("")
    told.add(now())
    assert len(told) == 4
    (tmp_path / "rooms" / "__pycache__").mkdir()
    (tmp_path / "rooms" / "__pycache__" / "one.pyc").write_text("")
    assert now() in told
