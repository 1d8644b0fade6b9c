"""A damaged or lost log is made whole from its copies and from what is sound in it."""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from coach.log.copies import backups_beside, copies_in, keep_backup
from coach.log.errors import LogBusy, LogError, LogMissing, LogUnusable
from coach.log.file import journal_of
from coach.log.jobs import Log
from coach.log.kinds import body_of
from coach.log.looking_through import chains_of, find_all, look_through
from coach.log.restoring import ChangedJob, CutOff, Restored, restore
from tests.log.bodies import BEGAN, note

AT, LATER = "2026-11-25T09:30:00Z", "2026-11-26T09:30:00Z"
DAY = date(2026, 11, 25)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A log with two jobs, of which a copy has all but the last ten entries of the axe."""
    path = tmp_path / "shop.sqlite"
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        log.append_many("axe", 1, AT, [note(f"struck number {n}") for n in range(2, 31)])
        log.begin("adze", AT, BEGAN)
        keep_backup(log, backups_beside(path), DAY)
        log.append_many("axe", 30, LATER, [note(f"struck number {n}") for n in range(31, 41)])
    return path


def copies(path: Path) -> list[Path]:
    return [copy.path for copy in copies_in(backups_beside(path), path.name)]


def restored(path: Path) -> Restored:
    return restore(path, copies(path), "now")


def held(path: Path) -> dict[str, int]:
    with Log(path) as log:
        assert log.verify() == []
        return {job: log.last_number(job) for job in log.jobs()}


def struck(first: int, last: int) -> tuple[CutOff, ...]:
    """The entries that `path` has been given, as they are told when they are cut off."""
    return tuple(
        CutOff(number, LATER, "note", f'{{"step":1,"text":"struck number {number}"}}')
        for number in range(first, last + 1)
    )


def flip(path: Path, number: int) -> None:
    content = path.read_bytes()
    assert content.count(f'struck number {number}"'.encode()) == 1
    path.write_bytes(
        content.replace(f'struck number {number}"'.encode(), f'strock number {number}"'.encode())
    )


def test_what_the_copy_has_and_what_is_sound_in_the_log_come_together(path: Path) -> None:
    flip(path, 35)
    was = path.read_bytes()
    told = restored(path)
    assert held(path) == {"axe": 34, "adze": 1}
    assert told.changes == (ChangedJob("axe", 34, won=0, lost=6, cut_off=struck(36, 40)),)
    assert Path(told.aside).read_bytes() == was
    assert look_through(Path(told.aside)).entries == 35


def test_damage_that_the_copy_bridges_is_won_back(path: Path) -> None:
    flip(path, 7)
    told = restored(path)
    assert told.changes == (ChangedJob("axe", 40, won=34, lost=0),)
    assert told.taken_from == tuple(map(str, copies(path)))
    assert held(path) == {"axe": 40, "adze": 1}


def cut_short(path: Path) -> None:
    os.truncate(path, path.stat().st_size // 2)


def overwritten(path: Path) -> None:
    path.write_text("axe\n" * 500, encoding="utf-8")


def emptied(path: Path) -> None:
    path.write_bytes(b"")


def a_page_of_nothing(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[8192:12288] = bytes(4096)
    path.write_bytes(content)


@pytest.mark.parametrize("spoil", [cut_short, overwritten, emptied, a_page_of_nothing, os.unlink])
def test_nothing_of_the_copy_is_lost_however_the_log_is_damaged(
    path: Path, spoil: Callable[[Path], object]
) -> None:
    spoil(path)
    was = path.read_bytes() if path.exists() else None
    told = restored(path)
    now = held(path)
    assert now["adze"] == 1
    assert now["axe"] >= 30
    assert (Path(told.aside).read_bytes() if told.aside else None) == was
    assert path.stat().st_mode & 0o777 == 0o600


def test_what_is_sound_is_saved_without_any_copy(path: Path) -> None:
    shutil.rmtree(backups_beside(path))
    flip(path, 35)
    assert restored(path).changes == (ChangedJob("axe", 34, won=0, lost=6, cut_off=struck(36, 40)),)
    assert held(path) == {"axe": 34, "adze": 1}


def test_rows_on_both_sides_of_a_lost_page_are_found(path: Path) -> None:
    with Log(path) as log:
        log.append_many("axe", 40, LATER, [note("x" * 500) for _ in range(100)])
        log.begin("froe", LATER, BEGAN)
    shutil.rmtree(backups_beside(path))
    content = bytearray(path.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = bytes(4096)
    path.write_bytes(content)
    restored(path)
    now = held(path)
    assert now["adze"] == now["froe"] == 1
    assert now["axe"] >= 40


def test_a_journal_is_set_aside_with_its_log_and_not_played_into_the_new_one(path: Path) -> None:
    overwritten(path)
    journal_of(path).write_bytes(b"left behind")
    told = restored(path)
    assert not journal_of(path).exists()
    assert journal_of(Path(told.aside)).read_bytes() == b"left behind"
    assert held(path) == {"axe": 30, "adze": 1}


def test_a_log_begun_anew_and_the_one_that_was_lost_come_together(path: Path) -> None:
    path.unlink()
    with Log(path) as log:
        log.begin("axe", LATER, BEGAN)
        log.append("axe", 1, LATER, note("another axe"))
    restored(path)
    assert held(path) == {"axe": 2, "axe-2": 30, "adze": 1}
    with Log(path) as log:
        assert [entry.at for entry in log.entries("axe-2")] == [AT] * 30
    assert restored(path).aside == "", "a second time there is nothing to add"
    assert held(path) == {"axe": 2, "axe-2": 30, "adze": 1}


def test_a_sound_log_that_no_copy_adds_to_is_left_alone(path: Path) -> None:
    was, there = path.read_bytes(), sorted(path.parent.iterdir())
    told = restored(path)
    assert (told.changes, told.aside) == ((), "")
    assert path.read_bytes() == was
    assert sorted(path.parent.iterdir()) == there


def test_looking_changes_nothing(path: Path) -> None:
    flip(path, 7)
    was, there = path.read_bytes(), sorted(path.parent.iterdir())
    assert restore(path, copies(path), "now", only_look=True).changes == (ChangedJob("axe", 40, 34, 0),)
    assert path.read_bytes() == was
    assert sorted(path.parent.iterdir()) == there


def test_a_damaged_copy_gives_what_is_sound_in_it(path: Path) -> None:
    path.unlink()
    (copy,) = copies(path)
    flip(copy, 7)
    restored(path)
    assert held(path) == {"axe": 6, "adze": 1}


def test_without_anything_sound_it_is_refused_and_left(path: Path) -> None:
    shutil.rmtree(backups_beside(path))
    overwritten(path)
    was = path.read_bytes()
    with pytest.raises(LogMissing, match=r"nothing to restore shop\.sqlite from"):
        restored(path)
    assert [(one.name, one.read_bytes()) for one in path.parent.iterdir()] == [("shop.sqlite", was)]


def test_while_another_window_makes_an_entry_it_is_refused(path: Path) -> None:
    flip(path, 7)
    there = sorted(path.parent.iterdir())
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(LogBusy):
            restored(path)
    assert sorted(path.parent.iterdir()) == there


def test_a_disk_that_gives_out_leaves_all_as_it_was(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    flip(path, 7)
    was, there = path.read_bytes(), sorted(path.parent.iterdir())

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfileobj", full)
    with pytest.raises(LogError, match="no room left on the disk"):
        restored(path)
    assert path.read_bytes() == was
    assert sorted(path.parent.iterdir()) == there


def test_a_link_is_followed_and_stays_and_a_broken_one_is_refused(path: Path) -> None:
    kept = path.with_name("elsewhere.sqlite")
    path.rename(kept)
    flip(kept, 7)
    path.symlink_to(kept.name)
    restored(path)
    assert path.is_symlink()
    assert held(path) == {"axe": 40, "adze": 1}
    kept.unlink()
    with pytest.raises(LogUnusable, match=r"is a link to elsewhere\.sqlite, which is not there"):
        restored(path)


def test_a_folder_or_a_pipe_is_no_log_to_restore(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for name in (tmp_path, tmp_path / "pipe"):
        with pytest.raises(LogUnusable, match="no ordinary file"):
            restore(name, [], "now")


def test_what_is_sound_is_told_of_each_job(path: Path) -> None:
    flip(path, 7)
    assert {job: len(chain) for job, chain in chains_of(find_all(path).rows).items()} == {"axe": 6, "adze": 1}
    seen = look_through(path)
    assert (seen.sound, seen.jobs, seen.entries, seen.last_at) == (False, 2, 7, AT)
    assert seen.faults == ("Job 'axe' in shop.sqlite is damaged, entry 7 is not as it was written.",)


def without_copies(path: Path) -> bytes:
    shutil.rmtree(backups_beside(path))
    return path.read_bytes()


@pytest.mark.parametrize("offset", [0, *range(15, 24), 28, 31, 40, 44, 47, 56, 59, 60, 68, 92, 95, 96])
def test_no_byte_of_the_header_costs_an_entry(path: Path, offset: int) -> None:
    was = bytearray(without_copies(path))
    was[offset] ^= 0x41
    path.write_bytes(was)
    told = restored(path)
    assert held(path) == {"axe": 40, "adze": 1}
    assert [change.lost for change in told.changes] in ([], [0, 0])
    assert not told.unreadable


def test_what_stands_on_both_sides_of_a_damaged_row_is_saved(path: Path) -> None:
    with Log(path) as log:
        log.begin("froe", LATER, body_of("began", {**BEGAN.to_json(), "text": "long " * 4000}))
        log.append_many("froe", 1, LATER, [note("the second"), note("the last")])
        log.begin("drift", LATER, BEGAN)
        log.append_many("drift", 1, LATER, [note("after it all")])
        log.append_many("axe", 40, LATER, [note("as well")])
    was = without_copies(path)
    page = next(at for at in range(0, len(was), 4096) if was[at + 4 : at + 4096].count(b"long ") > 810)
    damaged = bytearray(was)
    damaged[page] ^= 1  # where the long text goes on from here is not known any more
    path.write_bytes(damaged)
    told = restored(path)
    assert held(path) == {"axe": 41, "adze": 1, "drift": 2}
    (froe,) = (change for change in told.changes if change.lost)
    assert (froe.job, froe.entries, froe.lost) == ("froe", 0, 3)
    assert [one.body for one in froe.cut_off] == [
        '{"step":1,"text":"the second"}',
        '{"step":1,"text":"the last"}',
    ]


def test_each_page_of_nothing_costs_what_was_on_it_alone_and_is_told(path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("VACUUM")  # so that nothing stands twice, as it does where a page was split
    was = without_copies(path)
    for at in range(0, len(was), 4096):
        path.write_bytes(was[:at] + bytes(4096) + was[at + 4096 :])
        on_it = was[at : at + 4096].count(b'"text":"struck')
        told = restore(path, [], f"{at}", only_look=True)
        left = sum(entry.lost - len(entry.cut_off) for entry in told.changes)
        assert left == on_it or (at == 0 and not on_it) or b'"recipe"' in was[at : at + 4096]
        assert told.unread == 1


def test_a_file_in_which_nothing_can_be_read_is_said_to_be_that(path: Path) -> None:
    overwritten(path)
    told = restored(path)
    assert told.unreadable
    assert held(path) == {"axe": 30, "adze": 1}


def test_without_the_beginning_of_any_job_the_rest_is_told_and_nothing_changed(path: Path) -> None:
    was = without_copies(path).replace(b"Broad axe", b"Broad exe")
    path.write_bytes(was)
    told = restored(path)
    assert (told.entries, told.aside) == (0, "")
    assert [(one.job, one.lost, len(one.cut_off)) for one in told.changes] == [
        ("adze", 1, 0),
        ("axe", 40, 39),
    ]
    assert [(one.name, one.read_bytes()) for one in path.parent.iterdir()] == [("shop.sqlite", was)]


@pytest.mark.parametrize(
    "content", [b"", b"root:x:0:0:root:/root:/bin/sh\n", b"\x00" * 9000, b"SQLite format 3\x00" + b"x" * 5000]
)
def test_what_a_link_leads_to_is_left_alone_where_it_holds_nothing_of_a_log(
    path: Path, content: bytes
) -> None:
    """Whoever can set a link must not have another file replaced by it."""
    with Log(path) as log:
        keep_backup(log, backups_beside(path), DAY)
    other = path.with_name("other")
    other.write_bytes(content)
    path.unlink()
    path.symlink_to("other")
    before = sorted(path.parent.iterdir())
    with pytest.raises(LogUnusable, match="is a link to other, which is no log and holds nothing of one"):
        restore(path, copies(path), "now")
    assert other.read_bytes() == content
    assert sorted(path.parent.iterdir()) == before
    path.unlink()
    restore(path, copies(path), "now")
    with Log(path) as log:
        assert log.verify() == []


def test_a_damaged_log_that_a_link_leads_to_is_restored(path: Path) -> None:
    with Log(path) as log:
        keep_backup(log, backups_beside(path), DAY)
    other = path.with_name("other")
    other.write_bytes(b"\x00" * 100 + path.read_bytes()[100:])
    path.unlink()
    path.symlink_to("other")
    restore(path, copies(path), "now")
    assert path.is_symlink()
    with Log(path) as log:
        assert log.verify() == []
