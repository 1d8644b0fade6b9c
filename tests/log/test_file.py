"""What is not a sound log of ours is refused in one sentence, and a log that cannot be written says so."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

import pytest

from coach.log import file as log_file
from coach.log import jobs as log_module
from coach.log.errors import LogDamaged, LogError, LogFull, LogUnusable
from coach.log.file import APPLICATION_ID, LAYOUTS, open_file
from coach.log.jobs import Log
from coach.log.restoring import restore
from tests.log.bodies import BEGAN, NOTE, note

ROOT = Path(__file__).resolve().parents[2]
AT = "2026-11-25T09:30:00Z"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "shop.db"


def a_sound_log(path: Path, entries: int = 40) -> None:
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        log.append_many("axe", 1, AT, [note(f"struck number {n}") for n in range(2, entries + 1)])


def a_text_file(path: Path) -> None:
    path.write_text("axe body 300 x 60 x 30\n" * 100, encoding="utf-8")


def a_short_text_file(path: Path) -> None:
    path.write_bytes(b"axe\n")


def a_file_of_one_byte(path: Path) -> None:
    path.write_bytes(b"x")


def an_empty_file(path: Path) -> None:
    path.touch()


def a_folder(path: Path) -> None:
    path.mkdir()


def anothers_database(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE entries (job TEXT)")


def anothers_marked_database(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA application_id = 7")


def a_newer_log(path: Path) -> None:
    a_sound_log(path)
    with closing(sqlite3.connect(path)) as other:
        other.execute(f"PRAGMA user_version = {len(LAYOUTS) + 1}")


def a_log_cut_short(path: Path) -> None:
    a_sound_log(path, 400)
    os.truncate(path, path.stat().st_size // 2)


def a_log_cut_within_a_page(path: Path) -> None:
    a_sound_log(path, 400)
    os.truncate(path, 5000)


def a_log_with_a_page_of_nothing(path: Path) -> None:
    a_sound_log(path, 400)
    with path.open("r+b") as file:
        file.seek(8192)
        file.write(bytes(4096))


def a_log_whose_index_has_lost_an_entry(path: Path) -> None:
    a_sound_log(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("PRAGMA writable_schema = ON")
        table, layout = other.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'table'").fetchone()
        trigger = other.execute("SELECT sql FROM sqlite_schema WHERE name = 'entries_never_go'").fetchone()[0]
        # Taken for a table without its index, the table loses a row that the index keeps.
        other.execute("DROP TRIGGER entries_never_go")
        bare = layout.replace(",\n        UNIQUE (job, number)", "")
        assert bare != layout
        other.execute("UPDATE sqlite_schema SET sql = ? WHERE name = ?", (bare, table))
        kept = other.execute("SELECT * FROM sqlite_schema WHERE name LIKE 'sqlite_autoindex%'").fetchone()
        other.execute("DELETE FROM sqlite_schema WHERE name LIKE 'sqlite_autoindex%'")
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("DELETE FROM entries WHERE number = 40")
        other.execute(trigger)
        other.execute("PRAGMA writable_schema = ON")
        other.execute("INSERT INTO sqlite_schema VALUES (?, ?, ?, ?, ?)", kept)
        other.execute("UPDATE sqlite_schema SET sql = ? WHERE name = ?", (layout, table))


@pytest.mark.parametrize("read_only", [False, True], ids=["for writing", "for reading"])
@pytest.mark.parametrize(
    ("make", "kind", "says"),
    [
        (a_text_file, LogUnusable, "is not a log: choose another file"),
        (a_short_text_file, LogUnusable, "is not a log: choose another file"),
        (a_file_of_one_byte, LogUnusable, "is not a log: choose another file"),
        (
            an_empty_file,
            LogUnusable,
            "is empty: `coach restore` takes back what is sound and `coach backups`",
        ),
        (a_folder, LogUnusable, "is a folder, not a log"),
        (anothers_database, LogUnusable, "belongs to another program"),
        (anothers_marked_database, LogUnusable, "belongs to another program"),
        (a_newer_log, LogUnusable, "is a log of version 2 and this program reads up to version 1"),
        (a_log_cut_short, LogDamaged, "is damaged: keep it as it is; `coach restore` takes back"),
        (a_log_cut_within_a_page, LogDamaged, "is damaged: keep it as it is; `coach restore` takes back"),
        (
            a_log_with_a_page_of_nothing,
            LogDamaged,
            "is damaged: keep it as it is; `coach restore` takes back",
        ),
    ],
)
def test_what_is_not_a_sound_log_of_ours_is_refused_and_left_alone(
    path: Path, make: Callable[[Path], None], kind: type[LogError], says: str, read_only: bool
) -> None:
    make(path)
    before = path.read_bytes() if path.is_file() else b""
    with pytest.raises(kind) as caught:
        Log(path, read_only=read_only)
    sentence = str(caught.value)
    assert sentence.startswith("shop.db ")
    assert says in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert (path.read_bytes() if path.is_file() else b"") == before
    assert [found.name for found in path.parent.iterdir()] == ["shop.db"]


def test_an_index_that_disagrees_with_its_table_is_noticed_on_opening(path: Path) -> None:
    a_log_whose_index_has_lost_an_entry(path)
    with closing(sqlite3.connect(path)) as other:
        assert other.execute("PRAGMA quick_check").fetchall() == [("ok",)]
    with pytest.raises(LogDamaged, match=r"shop\.db is damaged"):
        Log(path)


def test_there_must_be_a_log_to_read(path: Path) -> None:
    with pytest.raises(LogUnusable, match=r"There is no shop\.db to read"):
        Log(path, read_only=True)
    assert not path.exists()


@pytest.mark.parametrize("read_only", [False, True], ids=["for writing", "for reading"])
def test_a_broken_link_is_refused_with_its_target_and_stays(path: Path, read_only: bool) -> None:
    path.symlink_to("stick/shop.db")
    with pytest.raises(LogUnusable, match=r"shop\.db is a link to stick/shop\.db, which is not there"):
        Log(path, read_only=read_only)
    assert path.is_symlink()


def test_a_file_where_a_folder_should_be_is_told(path: Path) -> None:
    path.touch()
    with pytest.raises(LogError, match=r"log\.db could not be reached"):
        Log(path / "log.db")


def test_a_journal_whose_log_is_gone_does_not_spoil_a_new_one(path: Path) -> None:
    journal, left_behind = path.with_name("shop.db-journal"), path.with_name("left behind")
    a_sound_log(path, 400)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("PRAGMA cache_spill = 1")
        other.execute("PRAGMA cache_size = 1")
        other.execute("BEGIN")
        other.execute("CREATE TABLE much AS SELECT * FROM entries")
        shutil.copy(journal, left_behind)
        other.execute("ROLLBACK")
    path.unlink()
    left_behind.rename(journal)
    a_sound_log(path)
    with Log(path) as log:
        assert log.verify() == []
        assert log.last_number("axe") == 40


def test_the_file_says_whose_it_is(path: Path) -> None:
    a_sound_log(path)
    # https://www.sqlite.org/fileformat.html: the application id is at offset 68, big-endian.
    assert int.from_bytes(path.read_bytes()[68:72], "big") == APPLICATION_ID


@pytest.mark.parametrize("flip", [0x01, 0x80], ids=["another letter", "no letter at all"])
def test_one_flipped_bit_inside_a_body_is_found(path: Path, flip: int) -> None:
    a_sound_log(path)
    held = bytearray(path.read_bytes())
    held[held.index(b'struck number 7"')] ^= flip
    path.write_bytes(held)
    with Log(path) as log:
        (fault,) = log.verify()
        assert fault.startswith("Job 'axe' in shop.db is damaged, entry 7 is not as it was written")
        with pytest.raises(LogDamaged, match="entry 7 is not as it was written") as caught:
            log.entries("axe")
        assert (caught.value.job, caught.value.number) == ("axe", 7)
        assert [entry.number for entry in caught.value.sound] == [1, 2, 3, 4, 5, 6]
        assert len(log.entries("axe", after=20)) == 20, "what does not reach back over it can be read"


def test_a_damaged_name_is_found(path: Path) -> None:
    a_sound_log(path, 1)
    held = path.read_bytes()
    assert held.count(b"axe") > 1
    with Log(path) as log:
        assert log.verify() == []
        path.write_bytes(held.replace(b"axe", b"\xffxe"))
        with closing(sqlite3.connect(path, isolation_level=None)) as other:
            other.execute("PRAGMA user_version = 1")
        assert any("the name of a job cannot be read" in fault for fault in log.verify())


def test_a_layout_that_is_no_text_any_more_is_damage(path: Path) -> None:
    a_sound_log(path)
    path.write_bytes(path.read_bytes().replace(b"coalesce", b"c\xffalesce"))
    with pytest.raises(LogDamaged, match=r"shop\.db is damaged.*`coach restore`"):
        Log(path, whole=False)
    restore(path, [], "now")
    with Log(path) as log:
        assert len(log.entries("axe")) == 40
        assert log.append("axe", 40, AT, NOTE).number == 41


def test_a_page_lost_while_the_log_is_open_is_a_fault_and_no_crash(path: Path) -> None:
    a_sound_log(path, 400)
    with Log(path) as log:
        os.truncate(path, 8192)
        assert log.verify() != []
        with pytest.raises(LogDamaged, match=r"shop\.db"):
            log.entries("axe")


def test_an_older_log_is_copied_aside_and_brought_up(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    a_sound_log(path)
    there = path.with_name("shop-version-1.db")
    there.write_text("something else", encoding="utf-8")
    with Log(path) as log:
        before = log.entries("axe")
    newer = (*LAYOUTS, ("CREATE TABLE racks (bar TEXT NOT NULL) STRICT",))
    monkeypatch.setattr(log_file, "LAYOUTS", newer)
    with pytest.raises(LogUnusable, match="older than this program's: open it once for writing"):
        Log(path, read_only=True)
    with Log(path) as log:
        assert log.entries("axe") == before
    with closing(sqlite3.connect(path)) as other:
        assert other.execute("PRAGMA user_version").fetchone() == (2,)
        assert other.execute("SELECT count(*) FROM racks").fetchone() == (0,)
    monkeypatch.undo()
    with Log(path.with_name("shop-version-1-2.db")) as aside:
        assert aside.entries("axe") == before
    assert there.read_text(encoding="utf-8") == "something else"


def test_a_step_up_that_fails_leaves_the_older_log(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    a_sound_log(path)
    bad = (*LAYOUTS, ("CREATE TABLE racks (bar TEXT) STRICT", "CREATE TABLE entries (bar TEXT) STRICT"))
    monkeypatch.setattr(log_file, "LAYOUTS", bad)
    with pytest.raises(LogError, match=r"shop\.db could not be used"):
        Log(path)
    monkeypatch.undo()
    with Log(path) as log:
        assert log.verify() == []


def note_without_end(log: Log) -> None:
    for after in range(1, 200):
        log.append("axe", after, AT, note("x" * 2000))


def test_a_full_disk_keeps_what_there_is_and_says_so(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def open_on_a_small_disk(
        path: Path, read_only: bool, wait_s: float, *, whole: bool
    ) -> sqlite3.Connection:
        connection = open_file(path, read_only, wait_s, whole=whole)
        connection.execute("PRAGMA max_page_count = 20").fetchall()
        return connection

    monkeypatch.setattr(log_module, "open_file", open_on_a_small_disk)
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        with pytest.raises(LogFull, match=r"no room left on the disk for shop\.db") as full:
            note_without_end(log)
        taken = log.last_number("axe")
        assert taken > 5
        assert str(full.value).endswith("make room and do it again.")
        assert [entry.number for entry in log.entries("axe")] == list(range(1, taken + 1))
        assert log.verify() == []
    monkeypatch.undo()
    with Log(path) as log:
        assert log.append("axe", taken, AT, note("room again")).number == taken + 1


AS_ANYONE = """
import os, sys, tempfile
from datetime import date
from pathlib import Path
from coach.log.copies import keep_backup
from coach.log.errors import LogError
from coach.log.jobs import Log
from coach.log.kinds import kinds
from tests.log.bodies import BEGAN, NOTE
kinds()  # found while the program's own folder can still be looked into, which need not be open to anyone
if hasattr(os, "geteuid") and os.geteuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
def attempt(what):
    try:
        print(what())
    except LogError as error:
        print(type(error).__name__, "|", error)
"""

USE_WHAT_IS_CLOSED = """
path = Path(sys.argv[1])
attempt(lambda: Log(path))
attempt(lambda: len(Log(path, read_only=True).entries("axe")))
attempt(lambda: Log(path.with_name("new.db")))
attempt(lambda: Log(path, read_only=True).save_copy(path.with_name("copy.db")))
day = date(2026, 11, 25)
attempt(lambda: keep_backup(Log(path, read_only=True), path.parent / "backups", day))
"""

CLOSE_WHAT_IS_IN_USE = """
with tempfile.TemporaryDirectory() as name:
    folder = Path(name)
    log = Log(folder / "shop.db")
    log.begin("axe", "2026-11-25T09:30:00Z", BEGAN)
    folder.chmod(0o555)
    attempt(lambda: log.append("axe", 1, "2026-11-25T09:30:00Z", NOTE))
    attempt(lambda: log.last_number("axe"))
    folder.chmod(0o755)
    attempt(lambda: log.append("axe", 1, "2026-11-25T09:30:00Z", NOTE).number)
"""


def as_anyone(program: str, *arguments: str) -> list[str]:
    """What the program prints when it runs as a user whom closed files and folders do stop."""
    done = subprocess.run(
        [sys.executable, "-B", "-c", AS_ANYONE + program, *arguments],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    return done.stdout.splitlines()


@pytest.fixture
def open_to_all() -> Iterator[Path]:
    """A folder that any user may enter: pytest's own are closed to all but one."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    folder.chmod(0o755)
    shutil.rmtree(folder)


@pytest.mark.parametrize("closed", ["the file", "the folder", "both"])
def test_a_file_or_folder_that_may_not_be_written_can_still_be_read(open_to_all: Path, closed: str) -> None:
    path = open_to_all / "shop.db"
    a_sound_log(path)
    path.chmod(0o666 if closed == "the folder" else 0o444)
    open_to_all.chmod(0o777 if closed == "the file" else 0o555)
    writing, reading, making, copying, keeping = as_anyone(USE_WHAT_IS_CLOSED, str(path))
    assert writing.startswith("LogReadOnly | shop.db cannot be written here: allow writing")
    assert reading == "40"
    if closed == "the file":
        assert (open_to_all / "new.db").is_file()
        assert (open_to_all / "copy.db").is_file()
        assert Path(keeping).name.startswith("shop.db-2026-11-25-")
    else:
        assert making.startswith("LogReadOnly | new.db cannot be written here")
        assert copying.startswith("LogReadOnly | copy.db cannot be written here")
        assert keeping.startswith("LogReadOnly | backups cannot be written here")


def test_a_folder_closed_while_the_log_is_open_is_told_at_the_next_entry() -> None:
    refused, last, taken = as_anyone(CLOSE_WHAT_IS_IN_USE)
    assert refused.startswith("LogReadOnly | shop.db cannot be written here, so nothing was saved")
    assert (last, taken) == ("1", "2")


def test_a_disk_that_fails_is_told_apart_from_a_full_one(path: Path) -> None:
    a_sound_log(path)
    with Log(path) as log:
        # SQLite finds something in the journal's place that is no file, and cannot read it.
        path.with_name("shop.db-journal").mkdir()
        with pytest.raises(LogError, match=r"The disk failed while shop\.db was in use: check the disk"):
            log.append("axe", 40, AT, NOTE)
        path.with_name("shop.db-journal").rmdir()
        assert log.append("axe", 40, AT, NOTE).number == 41


@pytest.mark.parametrize("end", ["-journal", "-wal"])
def test_a_file_that_happens_to_have_the_name_of_a_journal_is_left_alone(tmp_path: Path, end: str) -> None:
    notes = tmp_path / f"diary{end}"
    notes.write_text("my own notes", encoding="utf-8")
    with pytest.raises(LogUnusable, match=f"diary{end} has the name that the journal of diary needs"):
        Log(tmp_path / "diary")
    assert [*tmp_path.iterdir()] == [notes]
    notes.rename(tmp_path / "kept")
    with Log(tmp_path / "diary") as log:
        log.begin("froe", "2026-11-25T09:30:00Z", BEGAN)
    notes.write_text("my own notes", encoding="utf-8")
    with pytest.raises(LogUnusable, match="move it, or name another log"):
        Log(tmp_path / "diary")
    assert notes.read_text(encoding="utf-8") == "my own notes"


@pytest.mark.parametrize("held", [b"", bytes(8), bytes(512), bytes.fromhex("d9d505f9")])
def test_a_journal_that_was_never_finished_is_none(tmp_path: Path, held: bytes) -> None:
    with Log(tmp_path / "shop.db") as log:
        log.begin("froe", "2026-11-25T09:30:00Z", BEGAN)
    (tmp_path / "shop.db-journal").write_bytes(held)
    with Log(tmp_path / "shop.db") as log:
        assert log.jobs() == ["froe"]
