"""`coach backups`, `coach restore` and `coach check-log`: what stands between a bad disk and lost work."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.cli.conftest import Coach


@pytest.fixture
def shop(coach: Coach) -> Path:
    """A log with one job and a copy of it."""
    job = coach.job()
    coach("note", job, "the bar leans")
    assert coach("backups", "--now").code == 0
    return coach.home / "data" / "shop.sqlite"


def spoil(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"leans", b"loans"))


def test_copies_are_listed_with_what_is_in_them(coach: Coach, shop: Path) -> None:
    said = coach("backups")
    assert said.code == 0
    assert said.out.startswith(f"In {shop.parent / 'backups'}:\n")
    assert "1 job, 2 entries" in said.out
    listed = coach("backups", "--json").values["copies"]
    assert isinstance(listed, list)
    (one,) = listed
    assert (one["jobs"], one["entries"], one["sound"]) == (1, 2, True)
    assert Path(one["file"]).is_file()


def test_no_copy_yet_is_told(coach: Coach) -> None:
    said = coach("backups")
    assert said.code == 0
    assert said.out.endswith("  no copy\n")
    refused = coach("backups", "--now")
    assert refused.code == 2
    assert "coach begin" in refused.err


def test_a_damaged_copy_is_shown_as_that(coach: Coach, shop: Path) -> None:
    (copy,) = (shop.parent / "backups").iterdir()
    spoil(copy)
    said = coach("backups")
    assert said.code == 1
    assert "DAMAGED" in said.out


def test_a_second_folder_is_kept_to_and_given_up(coach: Coach, shop: Path, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    refused = coach("backups", "--second", str(stick))
    assert refused.code == 2
    assert "plug it in" in refused.err
    stick.mkdir()
    assert coach("backups", "--second", str(stick), "--now").code == 0
    assert len(list(stick.glob("*/shop.sqlite-*.sqlite"))) == 1
    stick.rename(tmp_path / "away")
    told = coach("rest", "first-hook", "--insist")
    assert "No copy of the log was made in" in told.out
    assert "no such folder" in told.out
    assert coach("backups", "--no-second").code == 0
    assert coach("backups", "--now").code == 0


def test_a_stick_alone_is_enough_to_restore_from(coach: Coach, shop: Path, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    coach("backups", "--second", str(stick), "--now")
    before = coach("where", "first-hook", "--json").values
    for copy in (shop.parent / "backups").iterdir():
        copy.unlink()
    shop.unlink()
    assert coach("where", "first-hook").code == 2
    assert coach("restore").code == 0
    assert coach("where", "first-hook", "--json").values == before


@pytest.mark.parametrize("words", [["jobs"], ["where", "first-hook"], ["begin", "first-hook"], ["check-log"]])
def test_a_log_that_is_gone_while_copies_are_there_says_so(
    coach: Coach, shop: Path, words: list[str]
) -> None:
    shop.unlink()
    said = coach(*words)
    assert said.code == 2
    assert "1 copy of it in" in said.err
    assert "`coach restore`" in said.err
    assert not shop.exists()


def test_a_damaged_log_is_checked_and_restored(coach: Coach, shop: Path) -> None:
    assert coach("check-log").code == 0
    spoil(shop)
    said = coach("check-log")
    assert said.code == 1
    assert "entry 2 is not as it was written" in said.out
    assert "What can be trusted in it: 1 job, 1 entry." in said.out
    assert "`coach restore`" in coach("where", "first-hook").err
    looked = coach("restore", "--look")
    assert "would be restored" in looked.out
    assert coach("check-log").code == 1
    done = coach("restore")
    assert done.code == 0
    assert "1 won" in done.out
    assert "The file as it was is kept as" in done.out
    assert coach("check-log").code == 0
    again = coach("restore")
    assert again.code == 0
    assert "nothing was changed" in " ".join(again.out.split())


def test_what_is_lost_is_told_and_is_bad_news(coach: Coach, shop: Path) -> None:
    coach("note", "first-hook", "nine times")
    shop.write_bytes(shop.read_bytes().replace(b"nine times", b"none times"))
    said = coach("restore", "--json")
    assert said.code == 1
    assert said.values["changes"] == [{"job": "first-hook", "entries": 2, "won": 0, "lost": 1, "cut_off": []}]


def test_a_copy_is_meant_by_the_name_it_is_listed_by(coach: Coach, shop: Path) -> None:
    (copy,) = (shop.parent / "backups").iterdir()
    shop.unlink()
    said = coach("restore", copy.name)
    assert said.code == 0
    assert "1 job, 2 entries" in said.out
    assert str(copy) in "".join(said.out.split())


@pytest.mark.parametrize("words", [["restore", "--look"], ["check-log"]])
def test_a_log_left_in_the_middle_of_an_entry_is_looked_at_as_it_will_be(
    coach: Coach, shop: Path, words: list[str]
) -> None:
    half_an_entry(shop)
    before = {path: path.read_bytes() for path in shop.parent.glob("shop*")}
    assert len(before) == 2
    said = coach(*words)
    assert said.code == 0, said.out + said.err
    assert "1 job, 2 entries" in " ".join(said.out.split())
    assert {path: path.read_bytes() for path in shop.parent.glob("shop*")} == before
    assert coach("note", "first-hook", "straight again").code == 0
    assert coach("check-log", "--json").values["entries"] == 3


def half_an_entry(shop: Path) -> None:
    """The file and its journal as a power cut leaves them, pages of an entry written and not committed."""
    at_hand = shop.with_name("at-hand.sqlite")
    at_hand.write_bytes(shop.read_bytes())
    with closing(sqlite3.connect(at_hand, isolation_level=None)) as connection:
        connection.execute("PRAGMA cache_size = 1")
        connection.execute("BEGIN IMMEDIATE")
        for number in range(3, 100):
            connection.execute(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES ('first-hook', ?, '', 'note', ?, '', '')",
                (number, "x" * 3000),
            )
        shop.write_bytes(at_hand.read_bytes())
        journal = at_hand.with_name("at-hand.sqlite-journal")
        shop.with_name("shop.sqlite-journal").write_bytes(journal.read_bytes())
        connection.execute("ROLLBACK")
    at_hand.unlink()


@pytest.mark.parametrize("named", ["nosuch", "text"])
def test_a_copy_that_holds_nothing_is_refused(coach: Coach, shop: Path, tmp_path: Path, named: str) -> None:
    (tmp_path / "text").write_text("a text", encoding="utf-8")
    said = coach("restore", str(tmp_path / named))
    assert said.code == 2
    assert len(said.err.splitlines()) == 1
    assert "`coach backups`" in said.err


def test_a_log_that_cannot_be_read_is_never_passed_over_in_silence(coach: Coach, shop: Path) -> None:
    shop.write_bytes(b"not a log " * 1000)
    said = coach("restore")
    assert said.code == 1
    assert "The old file could not be read: what it held beyond the copies is not known." in said.out


def test_a_part_of_a_log_that_cannot_be_read_is_told(coach: Coach, shop: Path) -> None:
    was = shop.read_bytes()
    shop.write_bytes(was[:8192] + bytes(4096) + was[12288:])
    said = coach("restore")
    assert said.code == 1
    assert "1 part of the old file cannot be read at all" in " ".join(said.out.split())


def test_entries_that_nothing_leads_up_to_are_told_with_what_they_say(coach: Coach, shop: Path) -> None:
    for text in ("the one that is damaged", "the one after it"):
        assert coach("note", "first-hook", text).code == 0
    shop.write_bytes(shop.read_bytes().replace(b"that is damaged", b"that is demaged"))
    said = coach("restore")
    assert said.code == 1
    assert "2 LOST" in said.out
    assert "sound nowhere" not in said.out
    assert "the one after it" in said.out
