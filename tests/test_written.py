"""Files are written whole or not at all, over nothing unless that is told, and never through a link."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from coach.written import put, sweep


def names_in(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def test_a_file_is_written_for_its_owner_alone(tmp_path: Path) -> None:
    put(tmp_path / "new", b"text")
    assert (tmp_path / "new").read_bytes() == b"text"
    assert (tmp_path / "new").stat().st_mode & 0o777 == 0o600
    assert names_in(tmp_path) == ["new"]


@pytest.mark.parametrize("what", ["file", "folder", "link", "broken link"])
def test_what_is_there_stays_unless_that_is_told(tmp_path: Path, what: str) -> None:
    there, target = tmp_path / "there", tmp_path / "target"
    if what == "file":
        there.write_bytes(b"mine")
    elif what == "folder":
        there.mkdir()
    else:
        there.symlink_to(target)
    if what == "link":
        target.write_bytes(b"mine")
    before = names_in(tmp_path)
    with pytest.raises(FileExistsError):
        put(there, b"text")
    assert names_in(tmp_path) == before
    assert what != "file" or there.read_bytes() == b"mine"


def test_over_a_link_it_takes_the_place_of_the_link_not_of_what_it_points_to(tmp_path: Path) -> None:
    target = tmp_path / "target"
    target.write_bytes(b"mine")
    (tmp_path / "link").symlink_to(target)
    put(tmp_path / "link", b"text", over=True)
    assert target.read_bytes() == b"mine"
    assert (tmp_path / "link").read_bytes() == b"text"


@pytest.mark.parametrize("over", [False, True])
def test_a_full_disk_leaves_what_there_was_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, over: bool
) -> None:
    kept = tmp_path / "kept"
    if over:
        kept.write_bytes(b"mine")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        put(kept, b"text", over=over)
    assert names_in(tmp_path) == (["kept"] if over else [])
    assert not over or kept.read_bytes() == b"mine"


def test_a_disk_without_hard_links_will_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise PermissionError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", refused)
    put(tmp_path / "new", b"text")
    assert (tmp_path / "new").read_bytes() == b"text"
    with pytest.raises(FileExistsError):
        put(tmp_path / "new", b"other")
    assert names_in(tmp_path) == ["new"]


def test_what_was_left_half_made_goes_a_day_later_and_nothing_else_does(tmp_path: Path) -> None:
    names = [
        f".{'0a' * 8}.part",
        f".{'0b' * 8}.part-journal",
        f".{'0c' * 8}.part",
        ".notes.part",
        "0d.part",
        "x",
    ]
    for name in names:
        (tmp_path / name).write_bytes(b"")
    (tmp_path / f".{'0e' * 8}.part").mkdir()
    fresh = tmp_path / "fresh"
    fresh.write_bytes(b"")
    moment_s = fresh.stat().st_mtime
    for name in names:
        old_s = 3600.0 if name == names[2] else 90_000.0
        os.utime(tmp_path / name, (moment_s - old_s, moment_s - old_s))
    sweep(tmp_path, fresh)
    assert sorted(names_in(tmp_path)) == sorted([*names[2:], f".{'0e' * 8}.part", "fresh"])


def test_a_file_that_is_made_to_be_shown_has_the_rights_it_is_given(tmp_path: Path) -> None:
    put(tmp_path / "own", b"")
    put(tmp_path / "shown", b"", mode=0o644)
    assert [(tmp_path / name).stat().st_mode & 0o777 for name in ("own", "shown")] == [0o600, 0o644]
