"""Copies of the log are kept by their day and by what they hold; no sound one gives way to less."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from coach.log.copies import check_not_lost, copies_in, keep_backup
from coach.log.errors import LogBusy, LogDamaged, LogError, LogMissing
from coach.log.jobs import Log
from coach.log.kinds.note import Note
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


def days_in(folder: Path, name: str = "shop.db") -> list[str]:
    return [str(copy.day) for copy in copies_in(folder, name)]


def damage(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"Broad axe", b"Bread axe"))


def test_the_days_copy_is_a_log_of_its_own(log: Log, folder: Path) -> None:
    copy = keep_backup(log, folder, DAY)
    assert copy.name.startswith("shop.db-2026-11-25-")
    assert entries_in(copy) == 1
    assert list(folder.iterdir()) == [copy]
    assert copy.stat().st_mode & 0o777 == 0o600
    assert folder.stat().st_mode & 0o777 == 0o700


def test_the_days_copy_is_made_once_unless_asked_for_again(log: Log, folder: Path) -> None:
    copy = keep_backup(log, folder, DAY)
    log.append("axe", 1, AT, Resumed())
    assert keep_backup(log, folder, DAY) == copy
    assert entries_in(copy) == 1
    again = keep_backup(log, folder, DAY, force=True)
    assert entries_in(again) == 2
    assert list(folder.iterdir()) == [again], "what holds less has gone"
    assert keep_backup(log, folder, DAY, force=True) == again


def test_the_oldest_are_dropped_and_nothing_else(log: Log, folder: Path) -> None:
    folder.mkdir()
    others = {"shop.db-2026-11-01 copy.sqlite", "shop-2026-11-01-0123456789ab.sqlite", "shop.db", "note.txt"}
    for name in others:
        (folder / name).touch()
    for day in range(1, 7):
        keep_backup(log, folder, date(2026, 11, day), keep=3)
    assert days_in(folder) == ["2026-11-06", "2026-11-05", "2026-11-04"]
    assert others < {found.name for found in folder.iterdir()}


@pytest.mark.parametrize("day", [DAY_BEFORE, DAY], ids=["of the day before", "of the same day"])
def test_a_damaged_log_costs_no_sound_copy_and_that_is_told(tmp_path: Path, folder: Path, day: date) -> None:
    path = tmp_path / "shop.db"
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        sound = keep_backup(log, folder, day, keep=1)
    damage(path)
    with Log(path) as log:
        for _ in range(2):
            with pytest.raises(LogDamaged, match=r"no sound copy of it could be made.*`coach restore`"):
                keep_backup(log, folder, DAY, keep=1, force=True)
    assert entries_in(sound) == 1
    (kept,) = [copy for copy in copies_in(folder, "shop.db") if copy.damaged]
    assert kept.path.name.endswith("-damaged.sqlite")


def test_a_second_damage_costs_no_copy_of_the_first_in_which_more_was_sound(
    tmp_path: Path, folder: Path
) -> None:
    path = tmp_path / "shop.db"
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        for text in ("beta-one", "gamma-two"):
            log.append("axe", log.last_number("axe"), AT, Note(text=text, step=1))
    kept = []
    for written in (b"beta-one", b"gamma-two"):
        path.write_bytes(path.read_bytes().replace(written, written[:-1] + b"!"))
        with Log(path) as log, pytest.raises(LogDamaged):
            keep_backup(log, folder, DAY, force=True)
        kept.append({copy.path for copy in copies_in(folder, "shop.db") if copy.damaged})
    (first,) = kept[0]
    assert len(kept[1]) == 2, "each damage has a copy of its own"
    assert b"gamma-two" in first.read_bytes()


def test_a_log_begun_anew_costs_no_copy_of_the_one_that_is_gone(log: Log, folder: Path) -> None:
    log.append_many("axe", 1, AT, [Resumed()] * 6)
    full = keep_backup(log, folder, DAY)
    log.path.unlink()
    with Log(log.path) as anew:
        anew.begin("axe", "2026-11-25T10:30:00Z", BEGAN)
        for day in (DAY, *(date(2026, 12, day) for day in range(1, 5))):
            keep_backup(anew, folder, day, keep=1, force=True)
    assert entries_in(full) == 7
    assert days_in(folder) == ["2026-12-04", "2026-11-25"]


def test_a_clock_that_ran_ahead_costs_no_copy_of_a_real_day(log: Log, folder: Path) -> None:
    keep_backup(log, folder, DAY_BEFORE, keep=2)
    for day in range(1, 9):
        keep_backup(log, folder, date(2099, 1, day), keep=2)
    log.append("axe", 1, AT, Resumed())
    kept = keep_backup(log, folder, DAY, keep=2)
    assert entries_in(kept) == 2
    log.append("axe", 2, AT, Resumed())
    keep_backup(log, folder, date(2026, 11, 26), keep=2)
    assert days_in(folder) == ["2099-01-08", "2099-01-07", "2026-11-26", "2026-11-25"]


def test_a_clock_that_ran_behind_leaves_the_newest_days(log: Log, folder: Path) -> None:
    for day in (DAY_BEFORE, DAY, date(1970, 1, 1)):
        keep_backup(log, folder, day, keep=2)
    assert days_in(folder) == ["2026-11-25", "2026-11-24", "1970-01-01"]


def test_logs_of_one_stem_share_no_copies(log: Log, folder: Path) -> None:
    copy = keep_backup(log, folder, DAY, keep=1)
    with Log(log.path.with_name("shop.sqlite")) as other:
        other.begin("hammer", AT, BEGAN)
        assert keep_backup(other, folder, DAY, keep=1) != copy
    assert entries_in(copy) == 1


def test_a_copy_that_has_gone_bad_is_no_reason_to_drop_a_sound_one(log: Log, folder: Path) -> None:
    for day in (DAY_BEFORE, DAY):
        bad = keep_backup(log, folder, day)
    damage(bad)
    again = keep_backup(log, folder, DAY, force=True)
    assert again == bad
    assert entries_in(again) == 1


def test_a_log_that_is_gone_while_copies_are_there_is_told(log: Log, folder: Path) -> None:
    check_not_lost(log.path, [folder])
    keep_backup(log, folder, DAY)
    check_not_lost(log.path, [folder])
    log.path.unlink()
    with pytest.raises(LogMissing, match=r"There is no .*shop\.db, but 1 copy of it in .*`coach restore`"):
        check_not_lost(log.path, [folder])


def test_a_log_in_use_is_not_copied(log: Log, folder: Path) -> None:
    with closing(sqlite3.connect(log.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(LogBusy):
            keep_backup(log, folder, DAY)
        with pytest.raises(LogBusy):
            log.save_copy(folder / "copy.db")
    assert list(folder.iterdir()) == []


def test_a_copy_that_cannot_be_made_is_told(log: Log, folder: Path) -> None:
    folder.write_text("a file where the folder should be", encoding="utf-8")
    with pytest.raises(LogError, match="backups could not be reached"):
        keep_backup(log, folder, DAY)
    assert copies_in(folder, "shop.db") == []


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
    assert entries_in(copy) == 1
