"""Entries are taken in order, each window sees the others', and every refusal is a plain sentence."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from coach.log.carry import export_job, import_job
from coach.log.errors import EntryRefused, JobExists, LogBusy, LogError, LogReadOnly, NoSuchJob, OutOfDate
from coach.log.file import connect
from coach.log.jobs import Log
from coach.log.kinds.corrected import Corrected
from coach.log.kinds.heat import Heat
from coach.log.kinds.resumed import Resumed
from coach.log.newest import Newest
from tests.log.bodies import BEGAN, HEAT, NOTE, READING, note

AT = "2026-11-25T09:30:00Z"
LATER = "2026-11-25T09:31:00Z"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "shop.db"


@pytest.fixture
def log(path: Path) -> Iterator[Log]:
    with Log(path, wait_s=0.01) as opened:
        yield opened


def test_a_new_log_is_made_with_its_folders(tmp_path: Path) -> None:
    path = tmp_path / "forge & yard" / "50% #1?" / "shop.db"
    with Log(path) as log:
        assert log.jobs() == []
        assert not log.changed()
    assert [found.name for found in path.parent.iterdir()] == ["shop.db"]


def test_a_log_may_be_thrown_away() -> None:
    with Log(":memory:") as log:
        log.begin("axe", AT, BEGAN)
        assert log.jobs() == ["axe"]
        assert not log.changed()
    assert not Path(":memory:").exists()


def test_entries_are_read_back_as_they_were_given(log: Log, path: Path) -> None:
    began = log.begin("axe", AT, BEGAN)
    read = log.append("axe", 1, LATER, READING)
    with Log(path) as again:
        assert again.entries("axe") == [began, read]
    assert (began.number, began.kind, began.previous) == (1, "began", "")
    assert (read.number, read.at, read.previous) == (2, LATER, began.digest)


def test_jobs_are_named_in_the_order_they_were_begun(log: Log) -> None:
    for job in ("slick", "axe", "froe"):
        log.begin(job, AT, BEGAN)
    log.append("slick", 1, AT, Resumed())
    assert log.jobs() == ["slick", "axe", "froe"]
    assert [log.last_number(job) for job in log.jobs()] == [2, 1, 1]


def test_a_job_begins_only_once(log: Log) -> None:
    log.begin("axe", AT, BEGAN)
    with pytest.raises(JobExists, match=r"shop\.db already has a job 'axe'"):
        log.begin("axe", LATER, BEGAN)
    assert log.last_number("axe") == 1


@pytest.mark.parametrize("job", ["adze", "", "\udcff"])
def test_a_job_that_never_began_is_not_there(log: Log, job: str) -> None:
    calls: list[Callable[[], object]] = [
        lambda: log.entries(job),
        lambda: log.last_number(job),
        lambda: log.append(job, 0, AT, NOTE),
    ]
    for call in calls:
        with pytest.raises(NoSuchJob, match="has no job"):
            call()


def test_only_the_next_entry_is_taken(log: Log) -> None:
    log.begin("axe", AT, BEGAN)
    log.append("axe", 1, AT, HEAT)
    for after in (-1, 0, 1, 3):
        with pytest.raises(OutOfDate):
            log.append("axe", after, AT, NOTE)
    assert log.append("axe", 2, AT, NOTE).number == 3


def test_an_entry_out_of_date_is_told_what_it_missed(log: Log, path: Path) -> None:
    log.begin("axe", AT, BEGAN)
    with Log(path) as tablet:
        missed = tablet.append_many("axe", 1, AT, [HEAT, READING])
    with pytest.raises(OutOfDate, match="entries 2 to 3") as caught:
        log.append("axe", 1, LATER, note("mine"))
    assert list(caught.value.missed) == missed
    assert log.append("axe", 3, LATER, note("mine")).number == 4


def test_a_writer_who_has_seen_more_than_there_is_is_told_so(log: Log) -> None:
    log.begin("axe", AT, BEGAN)
    with pytest.raises(OutOfDate, match="an older copy has taken its place") as caught:
        log.append("axe", 5, AT, NOTE)
    assert caught.value.missed == ()


def test_two_windows_see_each_others_entries(log: Log, path: Path) -> None:
    with Log(path) as tablet:
        log.begin("axe", AT, BEGAN)
        assert tablet.changed()
        assert not tablet.changed()
        assert not log.changed(), "its own entry is no news to a window"
        heat = tablet.append("axe", 1, AT, HEAT)
        assert log.changed()
        assert log.entries("axe", after=1) == [heat]


def test_the_jobs_are_told_as_they_were_begun_and_as_they_were_touched_last(log: Log) -> None:
    for job in ("axe", "froe", "adze"):
        log.begin(job, AT, BEGAN)
    log.append("froe", 1, AT, NOTE)
    log.append("axe", 1, AT, NOTE)
    assert [one.job for one in log.newest()] == ["axe", "froe", "adze"]
    assert [one.job for one in log.latest_first()] == ["axe", "froe", "adze"]
    log.append("adze", 1, AT, NOTE)
    assert [one.job for one in log.latest_first()] == ["adze", "axe", "froe"]


def test_entries_can_be_read_from_where_one_left_off(log: Log) -> None:
    log.begin("axe", AT, BEGAN)
    added = log.append_many("axe", 1, AT, [Heat(step=n) for n in range(1, 6)])
    assert log.entries("axe", after=3) == added[2:]
    assert log.entries("axe", after=6) == []
    assert log.entries("axe", after=60) == []


def test_entries_that_belong_together_are_taken_together_or_not_at_all(log: Log) -> None:
    log.begin("axe", AT, BEGAN)
    with pytest.raises(
        EntryRefused,
        match=r"Entry 3 \(corrected\) was not written to shop\.db: .* a reading before it, not 2",
    ):
        log.append_many(
            "axe", 1, AT, [HEAT, Corrected(entry=2, typed="3", size=3.0, hot_doubt_c=0.0, insisted=False)]
        )
    assert log.last_number("axe") == 1
    assert log.append_many("axe", 1, AT, []) == []


@pytest.mark.parametrize("job", ["", " axe", "a\x00b", "\udcff"])
def test_a_job_needs_a_name_that_can_be_typed(log: Log, job: str) -> None:
    with pytest.raises(EntryRefused, match=r"No job was begun in shop\.db: .* cannot be its name"):
        log.begin(job, AT, BEGAN)


def test_a_job_made_elsewhere_must_have_its_beginning(log: Log) -> None:
    with pytest.raises(EntryRefused, match="a job has one beginning, and that is its first entry"):
        log.begin_with("axe", [(AT, HEAT)])
    with pytest.raises(EntryRefused, match="lacks its beginning"):
        log.begin_with("axe", [])


def test_a_log_opened_for_reading_takes_nothing(log: Log, path: Path) -> None:
    log.begin("axe", AT, BEGAN)
    with Log(path, read_only=True) as reader:
        assert len(reader.entries("axe")) == 1
        with pytest.raises(LogReadOnly, match=r"shop\.db cannot be written here"):
            reader.append("axe", 1, AT, NOTE)
        with pytest.raises(LogReadOnly, match=r"shop\.db cannot be written here"):
            reader.begin("adze", AT, BEGAN)
        log.append("axe", 1, AT, HEAT)
        assert reader.changed()
        assert reader.last_number("axe") == 2


def test_a_closed_log_says_so(path: Path) -> None:
    log = Log(path)
    log.close()
    log.close()
    with pytest.raises(LogError, match="open it again"):
        log.jobs()


def test_a_log_moved_away_while_open_takes_nothing_more(log: Log, path: Path) -> None:
    log.begin("axe", AT, BEGAN)
    log.save_copy(path.with_name("copy.db"))
    path.with_name("copy.db").replace(path)
    with pytest.raises(LogError, match="moved or replaced while it was open, so nothing was saved"):
        log.append("axe", 1, AT, HEAT)
    with Log(path) as again:
        assert again.last_number("axe") == 1


# Each method of Log, so that a new one cannot be forgotten here.
METHODS: dict[str, Callable[[Log, Path], object]] = {
    "add_to_rack": lambda log, _: log.add_to_rack(0, AT, []),
    "append": lambda log, _: log.append("axe", 1, AT, NOTE),
    "append_items": lambda log, _: log.append_items("axe", 1, [(AT, NOTE)]),
    "append_many": lambda log, _: log.append_many("axe", 1, AT, [NOTE]),
    "begin": lambda log, _: log.begin("adze", AT, BEGAN),
    "begin_with": lambda log, _: log.begin_with("adze", [(AT, BEGAN)]),
    "changed": lambda log, _: log.changed(),
    "entries": lambda log, _: log.entries("axe"),
    "holds": lambda log, _: log.holds([Newest("axe", 1, "")]),
    "jobs": lambda log, _: log.jobs(),
    "last_number": lambda log, _: log.last_number("axe"),
    "begun_from": lambda log, _: log.begun_from(),
    "latest_first": lambda log, _: log.latest_first(),
    "last_worked_first": lambda log, _: log.last_worked_first(),
    "newest": lambda log, _: log.newest(),
    "rack": lambda log, _: log.rack(),
    "save_copy": lambda log, folder: log.save_copy(folder / "copy.db"),
    "verify": lambda log, _: log.verify(),
}
FREE_OF_THE_FILE = {"close"}
AROUND_THE_LOG: dict[str, Callable[[Log, Path], object]] = {
    "opening": lambda log, _: Log(log.path, wait_s=0.01),
    "opening for reading": lambda log, _: Log(log.path, read_only=True, wait_s=0.01),
    "export": lambda log, _: export_job(log, "axe"),
    "import": lambda log, _: import_job(log, carried()),
}


def carried() -> str:
    with Log(":memory:") as other:
        other.begin("froe", AT, BEGAN)
        return export_job(other, "froe")


def test_every_method_is_tried_on_a_locked_file() -> None:
    public = {name for name in vars(Log) if not name.startswith("_")}
    assert public - FREE_OF_THE_FILE == set(METHODS)


@pytest.mark.parametrize("name", [*METHODS, *AROUND_THE_LOG])
def test_a_locked_file_is_busy_and_nothing_is_changed(log: Log, tmp_path: Path, name: str) -> None:
    call = (METHODS | AROUND_THE_LOG)[name]
    log.begin("axe", AT, BEGAN)
    with closing(sqlite3.connect(log.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(LogBusy, match=r"shop\.db is in use by another window or program"):
            call(log, tmp_path)
        other.execute("ROLLBACK")
    assert [found.name for found in tmp_path.iterdir()] == ["shop.db"]
    assert log.jobs() == ["axe"]
    assert log.last_number("axe") == 1
    with contextlib.ExitStack() as opened:
        done = call(log, tmp_path)
        if isinstance(done, Log):
            opened.enter_context(done)
    assert not list(tmp_path.glob("*-journal"))


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entries SET body = '{}' WHERE number = 2",
        "UPDATE OR REPLACE entries SET number = 1 WHERE number = 2",
        "DELETE FROM entries WHERE number = 2",
        "DELETE FROM entries",
        "REPLACE INTO entries SELECT place, job, number, at, 'note', body, previous, digest FROM entries",
        "REPLACE INTO entries SELECT 1, 'adze', 1, at, kind, body, '', digest FROM entries WHERE number = 2",
        "INSERT INTO entries SELECT NULL, job, 9, at, kind, body, previous, digest FROM entries",
        "INSERT OR IGNORE INTO entries SELECT NULL, job, 2, at, kind, body, previous, '' FROM entries",
    ],
)
def test_the_database_itself_refuses_to_change_an_entry(log: Log, statement: str) -> None:
    log.begin("axe", AT, BEGAN)
    log.append("axe", 1, AT, HEAT)
    before = log.entries("axe")
    refused = pytest.raises(sqlite3.IntegrityError, match="an entry ")
    with closing(sqlite3.connect(log.path, isolation_level=None)) as other, refused:
        other.execute(statement)
    assert log.entries("axe") == before
    assert log.jobs() == ["axe"]


def test_a_commit_is_synced_as_hard_as_sqlite_can(log: Log) -> None:
    # The numbers are those of https://www.sqlite.org/pragma.html: synchronous 3 is EXTRA.
    with closing(connect(log.path, read_only=False, wait_s=0.01)) as connection:
        for pragma, expected in {
            "synchronous": 3,
            "fullfsync": 1,
            "foreign_keys": 1,
            "trusted_schema": 0,
            "journal_mode": "delete",
        }.items():
            assert connection.execute(f"PRAGMA {pragma}").fetchone()[0] == expected


def test_tables_keep_to_their_types(log: Log) -> None:
    refused = pytest.raises(sqlite3.IntegrityError, match="cannot store BLOB value in TEXT column")
    with closing(sqlite3.connect(log.path, isolation_level=None)) as other, refused:
        other.execute("INSERT INTO entries VALUES (NULL, 'axe', 1, 't', 'began', x'00', '', '')")
