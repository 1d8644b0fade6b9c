"""Files are written whole or not at all, over nothing unless that is told, and never through a link."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from coach.written import put


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
