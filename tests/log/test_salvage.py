"""Rows are found in the bare pages of a log, whatever has become of its header and of its tree."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from coach.log.jobs import Log
from coach.log.kinds import body_of
from coach.log.salvage import Row, salvage
from tests.log.bodies import BEGAN, note

AT = "2026-11-25T09:30:00Z"
SIZES = [512, 1024, 4096, 16384, 65536]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A log of three jobs with notes of every length."""
    path = tmp_path / "shop.sqlite"
    with Log(path) as log:
        for job in ("axe", "härte-probe", "froe", "ø" * 40):
            log.begin(job, AT, BEGAN)
            log.append_many(job, 1, AT, [note("né " * length) for length in range(1, 140)])
        for length in range(400, 70000, 2345):
            log.begin(f"long-{length}", AT, body_of("began", {**BEGAN.to_json(), "text": "é" * length}))
    return path


def by_sqlite(path: Path) -> set[Row]:
    with closing(sqlite3.connect(path)) as connection:
        return set(
            connection.execute("SELECT job, number, at, kind, body, previous, digest FROM entries").fetchall()
        )


@pytest.mark.parametrize("size", SIZES)
def test_every_row_that_sqlite_reads_is_found_whatever_the_size_of_a_page(path: Path, size: int) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA page_size = {size}")
        connection.execute("VACUUM")
    found = salvage(path)
    assert path.read_bytes()[16:18] == (1 if size == 65536 else size).to_bytes(2)
    assert set(found.rows) == by_sqlite(path)
    assert found.named == {row[:2] for row in found.rows}
    assert found.unread == 0


def test_the_tree_is_not_needed(path: Path) -> None:
    rows, content = by_sqlite(path), bytearray(path.read_bytes())
    for at in range(4096, len(content), 4096):
        if content[at] in (2, 5, 10, 13):
            content[at + 1 : at + 12] = bytes(11)  # the heads of the pages: how many cells, and where
        if content[at] in (2, 5):
            content[at + 12 : at + 4096] = bytes(4084)  # the branches
    content[:4096] = bytes(4096)
    path.write_bytes(content)
    assert set(salvage(path).rows) == rows


def test_a_file_cut_short_is_known_to_lack_something(path: Path) -> None:
    content = path.read_bytes()
    path.write_bytes(content[: len(content) - 3 * 4096])
    assert salvage(path).unread >= 3


def test_nothing_is_found_in_what_was_never_a_log(tmp_path: Path) -> None:
    for content in (b"", b"x", b"axe\n" * 5000, bytes(9000)):
        (tmp_path / "file").write_bytes(content)
        found = salvage(tmp_path / "file")
        assert (found.rows, found.named) == ((), frozenset())
