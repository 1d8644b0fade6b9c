"""A file with the mark of a log and another layout: nothing is asked of it, what is sound in it comes back.

Views without an end, triggers that drop what is entered: what a log from somebody else might hold.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from coach.log.copies import backups_beside, copies_in, keep_backup
from coach.log.errors import LogDamaged, LogError
from coach.log.jobs import Log
from coach.log.looking_through import find_all
from coach.log.newest import latest_names, newest_of, newest_of_all
from coach.log.restoring import restore
from tests.log.bodies import BEGAN, note

AT = "2026-11-25T08:00:00Z"
_GUARDS = [f"DROP TRIGGER entries_{name}" for name in ("only_follow", "never_change", "never_go")]
_ENDLESS = """CREATE VIEW entries AS
    WITH RECURSIVE on_and_on (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM on_and_on)
    SELECT n AS place, 'axe' || n AS job, 1 AS number, '' AS at, '' AS kind, '' AS body, '' AS previous,
    '' AS digest FROM on_and_on"""

#: What was done to a log, and whether its entries are still in it.
OTHERS = {
    "a view without an end": (["DROP TABLE entries", _ENDLESS], False),
    "a table without types": (
        [
            "DROP TABLE entries",
            "CREATE TABLE entries (place INTEGER PRIMARY KEY, job, number, at, kind, body, previous, digest)",
            "INSERT INTO entries VALUES (1, 'axe', 'one', NULL, 2, x'ff', 3.5, '')",
        ],
        False,
    ),
    "no table": (["DROP TABLE entries"], False),
    "a trigger that drops": (
        ["CREATE TRIGGER drops BEFORE INSERT ON entries BEGIN SELECT RAISE(IGNORE); END"],
        True,
    ),
    "a trigger that changes": (
        [
            _GUARDS[1],
            "CREATE TRIGGER changes AFTER INSERT ON entries BEGIN UPDATE entries SET body = '{}'; END",
        ],
        True,
    ),
    "a trigger that removes": (
        [
            _GUARDS[2],
            "CREATE TRIGGER removes AFTER INSERT ON entries BEGIN DELETE FROM entries WHERE number > 6; END",
        ],
        True,
    ),
    "a table besides": (["CREATE TABLE besides (a)"], True),
    "no guards": (_GUARDS, True),
    "a version below none": (["PRAGMA user_version = -5"], True),
    "the version of an empty file": (["PRAGMA user_version = 0"], True),
}


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "shop.sqlite"
    with Log(path) as log:
        log.begin("axe", AT, BEGAN)
        for number in range(1, 6):
            log.append("axe", number, AT, note(f"struck {number}"))
    return path


def laid_out_otherwise(path: Path, how: str) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        for statement in OTHERS[how][0]:
            other.execute(statement)


@pytest.mark.parametrize("how", OTHERS)
def test_nothing_is_asked_of_it(path: Path, how: str) -> None:
    laid_out_otherwise(path, how)
    for whole in (True, False):
        with pytest.raises(LogDamaged, match=r"shop\.sqlite is damaged: keep it as it is; `coach restore`"):
            Log(path, whole=whole)
    for look in (
        newest_of_all,
        lambda log: latest_names(log, 50),
        lambda log: newest_of(log, "axe"),
    ):
        with pytest.raises(LogError):
            look(path)


@pytest.mark.parametrize("how", OTHERS)
def test_what_is_sound_in_it_or_in_a_copy_comes_back(path: Path, how: str) -> None:
    with Log(path) as log:
        keep_backup(log, backups_beside(path), date(2026, 11, 25))
        log.append("axe", 6, AT, note("after the copy"))
    laid_out_otherwise(path, how)
    still_there = OTHERS[how][1]
    assert len(find_all(path).rows) == (7 if still_there else 0) or not still_there
    restore(path, [copy.path for copy in copies_in(backups_beside(path), path.name)], "now")
    with Log(path) as log:
        assert log.verify() == []
        assert log.last_number("axe") >= (7 if still_there else 6)
        log.append("axe", log.last_number("axe"), AT, note("and on it goes"))
        assert log.verify() == []


def test_what_sqlite_counts_for_itself_is_no_other_layout(path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("ANALYZE")
        other.execute("VACUUM")
    with Log(path) as log:
        assert log.last_number("axe") == 6
