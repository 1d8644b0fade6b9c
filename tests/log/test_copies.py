"""A copy of the log is kept for each day, and sound copies outlast damage."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from coach.log.copies import backups_of, keep_backup
from coach.log.errors import LogBusy, LogError
from coach.log.jobs import Log
from coach.log.kinds.resumed import Resumed
from tests.log.bodies import BEGAN

AT = "2026-11-25T09:30:00Z"
DAY_BEFORE, DAY = date(2026, 11, 24), date(2026, 11, 25)


@pytest.fixture
def log(tmp_path: Path) -> Iterator[Log]:
    with Log(tmp_path / "shop.db", wait_s=0.01) as opened:
        opened.begin("axe", AT, BEGAN)
        yield opened


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "backups"


def entries_in(path: Path) -> int:
    with Log(path, read_only=True) as copy:
        assert copy.verify() == []
        return copy.last_number("axe")


def test_the_days_copy_is_a_log_of_its_own(log: Log, folder: Path) -> None:
    copy = keep_backup(log, folder, DAY)
    assert copy == folder / "shop-2026-11-25.db"
    assert entries_in(copy) == 1
    assert [found.name for found in folder.iterdir()] == ["shop-2026-11-25.db"]


def test_the_days_copy_is_made_once_unless_asked_for_again(log: Log, folder: Path) -> None:
    copy = keep_backup(log, folder, DAY)
    assert copy is not None
    log.append("axe", 1, AT, Resumed())
    assert keep_backup(log, folder, DAY) == copy
    assert entries_in(copy) == 1
    assert keep_backup(log, folder, DAY, force=True) == copy
    assert entries_in(copy) == 2


def test_the_oldest_are_dropped_and_nothing_else(log: Log, folder: Path) -> None:
    folder.mkdir()
    others = {"shop-2026-11-01 copy.db", "other-2026-11-01.db", "shop.db", "note.txt"}
    for name in others:
        (folder / name).touch()
    for day in range(1, 7):
        keep_backup(log, folder, date(2026, 11, day), keep=3)
    kept = {"shop-2026-11-04.db", "shop-2026-11-05.db", "shop-2026-11-06.db"}
    assert {found.name for found in folder.iterdir()} == others | kept
    assert [copy.name for copy in backups_of("shop", folder)] == sorted(kept, reverse=True)


def test_a_damaged_log_drops_no_sound_copy(tmp_path: Path, folder: Path) -> None:
    path = tmp_path / "shop.db"
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        keep_backup(log, folder, DAY_BEFORE, keep=1)
    path.write_bytes(path.read_bytes().replace(b"Broad axe", b"Bread axe"))
    with Log(path) as log:
        assert keep_backup(log, folder, DAY, keep=1) is not None
    assert [copy.name for copy in backups_of("shop", folder)] == ["shop-2026-11-25.db", "shop-2026-11-24.db"]
    assert entries_in(folder / "shop-2026-11-24.db") == 1


def test_a_log_in_use_is_not_copied_but_nothing_is_raised(log: Log, folder: Path) -> None:
    with closing(sqlite3.connect(log.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        assert keep_backup(log, folder, DAY) is None
        with pytest.raises(LogBusy):
            log.save_copy(folder / "copy.db")
    assert backups_of("shop", folder) == []


def test_a_copy_that_cannot_be_made_is_told_by_none(log: Log, folder: Path) -> None:
    folder.write_text("a file where the folder should be", encoding="utf-8")
    assert keep_backup(log, folder, DAY) is None
    assert backups_of("shop", folder) == []


def test_a_log_is_not_copied_onto_itself(log: Log) -> None:
    with pytest.raises(LogError, match=r"shop\.db is the log itself"):
        log.save_copy(log.path)
    assert log.verify() == []


@pytest.mark.parametrize("way", ["round about", "a link"])
def test_nor_is_it_by_another_way_to_the_same_file(log: Log, tmp_path: Path, way: str) -> None:
    link = tmp_path / "link"
    link.symlink_to(log.path.parent, target_is_directory=True)
    folder = link if way == "a link" else log.path.parent / "backups" / ".."
    with pytest.raises(LogError, match=r"shop\.db is the log itself"):
        log.save_copy(folder / log.path.name)
    assert log.verify() == []


def test_a_copy_takes_the_place_of_what_was_there(log: Log, tmp_path: Path) -> None:
    target = tmp_path / "stick" / "shop.db"
    target.parent.mkdir()
    target.write_text("something else", encoding="utf-8")
    log.save_copy(target)
    assert entries_in(target) == 1


def test_a_throw_away_log_can_be_kept(folder: Path) -> None:
    with Log(":memory:") as log:
        log.begin("axe", AT, BEGAN)
        copy = keep_backup(log, folder, DAY)
    assert copy is not None
    assert entries_in(copy) == 1
