"""`coach backups`, `coach restore` and `coach check-log`: what stands between a bad disk and lost work."""

from __future__ import annotations

import os
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from coach.log import restoring
from coach.places import second_folder_file
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
    assert "no such folder" in " ".join(told.out.split())
    assert coach("backups", "--no-second").code == 0
    assert coach("backups", "--now").code == 0


@pytest.mark.parametrize("named", [".", "backups", "backups/second", "link"])
def test_a_second_folder_is_not_where_the_first_copies_are(coach: Coach, shop: Path, named: str) -> None:
    (shop.parent / "backups" / "second").mkdir()
    (shop.parent / "link").symlink_to("backups", target_is_directory=True)
    said = coach("backups", "--second", str(shop.parent / named))
    assert (said.code, said.out) == (2, "")
    assert "is where the log or its first copies are" in said.err
    assert "name a folder on a stick or on another disk" in said.err
    assert not second_folder_file().exists()


@pytest.mark.parametrize("zeros", [b"\0" * 40, b"\0stick\0\n"])
@pytest.mark.parametrize("words", [["backups"], ["backups", "--now"], ["restore", "--look"]])
def test_a_file_that_a_power_cut_left_full_of_zeros_ends_nothing(
    coach: Coach, shop: Path, words: list[str], zeros: bytes
) -> None:
    second_folder_file().parent.mkdir(parents=True, exist_ok=True)
    second_folder_file().write_bytes(zeros)
    assert coach(*words).code in (0, 1)


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


@pytest.fixture
def stick_out(coach: Coach, shop: Path, tmp_path: Path) -> Path:
    """A second folder with a copy in it, on a stick that is out."""
    stick = tmp_path / "stick"
    stick.mkdir()
    assert coach("backups", "--second", str(stick), "--now").code == 0
    stick.rename(tmp_path / "out")
    return stick


def test_a_stick_that_is_out_is_not_said_to_hold_no_copy(coach: Coach, stick_out: Path) -> None:
    said = coach("backups")
    assert said.code == 1
    assert "no copy" not in said.out
    assert "it cannot be read (the folder that it is in is not there)" in " ".join(said.out.split())
    unreadable = coach("backups", "--json").values["unreadable"]
    assert isinstance(unreadable, list)
    assert [Path(one).parent for one in unreadable] == [stick_out]


@pytest.mark.parametrize("words", [["restore"], ["restore", "--look"]])
def test_restoring_without_the_stick_says_that_nothing_came_from_it(
    coach: Coach, shop: Path, stick_out: Path, words: list[str]
) -> None:
    for copy in (shop.parent / "backups").iterdir():
        copy.unlink()
    shop.write_bytes(shop.read_bytes().replace(b"First hook", b"Third hook"))
    said = coach(*words)
    assert said.code == 1
    told = " ".join(said.out.split())
    assert f"In {stick_out}" not in told
    assert "nothing was taken from it: plug in what it is on" in told
    stick_out.with_name("out").rename(stick_out)
    assert coach("restore").code == 0
    assert coach("where", "first-hook").code == 0


@pytest.mark.parametrize(
    "words",
    [
        ["jobs"],
        ["where", "first-hook"],
        ["begin", "first-hook"],
        ["check-log"],
        ["restore"],
        ["backups", "--now"],
        ["import", "first-hook.job.jsonl"],
    ],
)
def test_a_log_that_is_gone_is_not_begun_anew_while_nobody_knows_what_the_stick_holds(
    coach: Coach, shop: Path, stick_out: Path, words: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(shop.parent.parent)
    assert coach("export", "first-hook").code == 0
    for copy in (shop.parent / "backups").iterdir():
        copy.unlink()
    shop.unlink()
    said = coach(*words)
    assert (said.code, said.out) == (2, "")
    assert len(said.err.splitlines()) == 1
    assert "the folder that it is in is not there" in said.err
    assert "plug in what it is on, or have no second folder with `coach backups --no-second`" in said.err
    assert not shop.exists()
    assert coach("backups", "--no-second").code == 0
    assert coach("begin", "first-hook").code == 0


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


def test_a_log_that_was_cut_short_is_not_sent_to_where_it_is_already(coach: Coach, shop: Path) -> None:
    shop.write_bytes(shop.read_bytes()[:9000])
    said = coach("check-log")
    assert said.code == 1
    assert "shop.sqlite is damaged" in said.out
    assert "check-log" not in said.out
    assert said.out.count("coach restore") == 1
    assert coach("check-log", "--json").values["faults"] == ["shop.sqlite is damaged: keep it as it is."]


def test_a_pipe_is_no_copy(coach: Coach, shop: Path, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    said = coach("restore", str(tmp_path / "pipe"))
    assert said.code == 2
    assert "pipe is no ordinary file" in said.err


def test_what_is_lost_and_what_is_not_known_are_told_apart(coach: Coach, shop: Path, tmp_path: Path) -> None:
    coach("note", "first-hook", "and leans more")
    held = bytearray(shop.read_bytes())
    for found in re.finditer(rb"[0-9a-f]{64}", bytes(held)):
        held[found.start()] ^= 1  # every seal is broken, and what is named is still to be seen
    shop.write_bytes(held)
    told = " ".join(coach("restore", "--look").out.split())
    assert "1 LOST, which it names and which are sound nowhere" in told
    assert "what it held beyond this and the copies is not known" in told


def killed_as(
    monkeypatch: pytest.MonkeyPatch, coach: Coach, name: str, killed: Callable[..., object]
) -> None:
    """A restore in a process of its own that ends without a word where it comes to this."""
    child = os.fork()
    if child == 0:
        monkeypatch.setattr(restoring, name, killed)
        coach("restore")
        os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == _KILLED


_KILLED = 9


def killed(*_: object) -> None:
    os._exit(_KILLED)


def test_what_a_killed_restore_has_set_aside_is_told(
    coach: Coach, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spoil(shop)
    was = shop.read_bytes()
    named_aside = restoring._named_aside
    killed_as(monkeypatch, coach, "_named_aside", lambda *all_: killed(named_aside(*all_)))
    (aside,) = asides(coach)
    assert Path(aside).read_bytes() == shop.read_bytes() == was
    assert Path(aside).name in coach("check-log").out
    assert coach("restore").code == 0
    assert asides(coach)[1] == aside


def test_a_restore_that_was_killed_before_it_changed_anything_leaves_nothing_to_tell(
    coach: Coach, shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    spoil(shop)
    killed_as(monkeypatch, coach, "_build", killed)
    assert asides(coach) == []


def asides(coach: Coach) -> list[str]:
    """The files that check-log tells were set aside."""
    told = coach("check-log", "--json").values["set_aside"]
    assert isinstance(told, list)
    return told


def test_a_log_that_is_empty_beside_its_copies_is_taken_back(coach: Coach, shop: Path) -> None:
    shop.write_bytes(b"")
    for words in (["jobs"], ["note", "first-hook", "x"], ["begin", "first-hook"], ["backups", "--now"]):
        refused = coach(*words)
        assert refused.code == 2
        assert (
            f"{shop} is empty, but 1 copy of it in {shop.parent / 'backups'}: `coach restore`" in refused.err
        )
        assert "`coach backups`" in refused.err
    assert coach("restore").code == 1  # what the file held beyond its copy nobody knows
    assert coach("history", "first-hook").out.count("leans") == 1


def test_a_log_that_is_empty_and_was_never_copied_says_what_can_be_done(coach: Coach) -> None:
    shop = coach.home / "data" / "shop.sqlite"
    shop.parent.mkdir(parents=True)
    shop.write_bytes(b"")
    refused = coach("begin", "first-hook")
    assert refused.code == 2
    assert "where there is none, delete it and a new log will be made" in refused.err
    shop.unlink()
    assert coach("begin", "first-hook").code == 0


def test_a_copy_of_a_log_that_is_gone_is_not_made_but_the_way_back_is_told(coach: Coach, shop: Path) -> None:
    shop.unlink()
    refused = coach("backups", "--now")
    assert refused.code == 2
    assert "`coach restore` takes it back" in refused.err


@pytest.mark.parametrize("end", ["-journal", "-wal"])
def test_another_file_with_the_name_of_a_journal_is_told_and_left(coach: Coach, shop: Path, end: str) -> None:
    stranger = shop.with_name(f"{shop.name}{end}")
    stranger.write_bytes(b"it is no journal at all " * 200)
    checked = coach("check-log")
    assert checked.code == 1
    assert f"{stranger.name}hasthenamethatthejournal" in "".join(checked.out.split())
    assert not coach("check-log", "--json").values["sound"]
    for words in (["restore", "--look"], ["restore"], ["note", "first-hook", "x"]):
        refused = coach(*words)
        assert refused.code == 2
        assert "move it" in refused.err
    assert stranger.read_bytes().startswith(b"it is no journal")


def test_a_stranger_in_the_place_of_the_journal_of_a_damaged_log_is_set_aside(
    coach: Coach, shop: Path
) -> None:
    spoil(shop)
    shop.with_name(f"{shop.name}-journal").write_bytes(b"it is no journal at all")
    assert coach("restore").code == 0
    (kept,) = shop.parent.glob("*-set-aside-*-journal")
    assert kept.read_bytes() == b"it is no journal at all"
