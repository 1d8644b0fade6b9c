"""What a command writes to a file: never over a log, and over another file only when told."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Coach

WRITERS = (
    ["export", "JOB", "FILE"],
    ["picture", "JOB", "--svg", "FILE"],
    ["sheet", "JOB", "--markdown", "FILE"],
)


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def log(coach: Coach) -> Path:
    coach.job()
    coach("backups", "--now")
    return coach.home / "data" / "shop.sqlite"


def typed(writer: list[str], file: Path | str) -> list[str]:
    return [{"JOB": "first-hook", "FILE": str(file)}.get(word, word) for word in writer]


@pytest.mark.parametrize("writer", WRITERS, ids=["export", "picture", "sheet"])
@pytest.mark.parametrize("force", [[], ["--force"]], ids=["untold", "told"])
@pytest.mark.parametrize(
    "way", ["itself", "a link", "a hard link", "another log", "a copy", "its journal", "another's journal"]
)
def test_a_log_is_never_written_over(
    coach: Coach, log: Path, tmp_path: Path, writer: list[str], force: list[str], way: str
) -> None:
    target = tmp_path / "named.svg"
    if way == "itself":
        target = log
    elif way == "a link":
        target.symlink_to(log)
    elif way == "a hard link":
        os.link(log, target)
    elif way == "its journal":
        target = log.with_name("shop.sqlite-journal")
    elif way == "a copy":
        (target,) = (log.parent / "backups").iterdir()
    else:
        shutil.copy(log, target)
        if way == "another's journal":
            target = target.with_name("named.svg-wal")
    was, there = log.read_bytes(), sorted(tmp_path.rglob("*"))
    held = target.read_bytes() if target.exists() else None
    refused = coach(*typed(writer, target), *force)
    assert refused.code == 2
    assert "is a log or belongs to one, and is never written over" in refused.err
    assert log.read_bytes() == was
    assert (target.read_bytes() if target.exists() else None) == held
    assert sorted(tmp_path.rglob("*")) == there


@pytest.mark.parametrize("beside", ["", "-journal", "-wal"])
@pytest.mark.parametrize("begins", [b"SQLite format 4", bytes(100), bytes(4096)])
def test_a_log_whose_mark_is_damaged_is_not_written_over_either(
    coach: Coach, log: Path, tmp_path: Path, begins: bytes, beside: str
) -> None:
    damaged = tmp_path / "damaged.sqlite"
    damaged.write_bytes(begins + log.read_bytes()[len(begins) :])
    was = damaged.read_bytes()
    refused = coach("export", "first-hook", f"{damaged}{beside}", "--force")
    assert refused.code == 2
    assert "is a log or belongs to one, and is never written over" in refused.err
    assert damaged.read_bytes() == was


@pytest.mark.parametrize("head", ["d9d505f920a163d7", "377f0682", "377f0683"])
def test_a_journal_whose_log_is_gone_is_not_written_over(
    coach: Coach, log: Path, tmp_path: Path, head: str
) -> None:
    journal = tmp_path / "gone.sqlite-journal"
    journal.write_bytes(bytes.fromhex(head) + bytes(5000))
    assert log.exists()
    assert coach("export", "first-hook", str(journal), "--force").code == 2
    assert journal.stat().st_size > 5000


@pytest.mark.parametrize("writer", WRITERS, ids=["export", "picture", "sheet"])
def test_another_file_is_written_over_only_when_that_is_told(
    coach: Coach, log: Path, tmp_path: Path, writer: list[str]
) -> None:
    (tmp_path / "kept").write_text("mine", encoding="utf-8")
    refused = coach(*typed(writer, "kept"))
    assert refused.code == 2
    assert "--force" in refused.err
    assert (tmp_path / "kept").read_text(encoding="utf-8") == "mine"
    assert coach(*typed(writer, "kept"), "--force").code == 0
    assert (tmp_path / "kept").read_text(encoding="utf-8") != "mine"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["home", "kept"]


@pytest.mark.parametrize("writer", WRITERS, ids=["export", "picture", "sheet"])
def test_a_broken_link_is_not_written_through(
    coach: Coach, log: Path, tmp_path: Path, writer: list[str]
) -> None:
    (tmp_path / "link").symlink_to("away")
    assert coach(*typed(writer, "link")).code == 2
    assert not (tmp_path / "away").exists()


@pytest.mark.parametrize("writer", WRITERS, ids=["export", "picture", "sheet"])
def test_what_lies_beside_the_file_is_left_alone(
    coach: Coach, log: Path, tmp_path: Path, writer: list[str]
) -> None:
    (tmp_path / "precious").write_text("mine", encoding="utf-8")
    (tmp_path / "out.part").symlink_to("precious")
    assert coach(*typed(writer, "out")).code == 0
    assert (tmp_path / "precious").read_text(encoding="utf-8") == "mine"
    assert (tmp_path / "out.part").is_symlink()


@pytest.mark.parametrize("writer", WRITERS, ids=["export", "picture", "sheet"])
@pytest.mark.parametrize("file", ["/dev/null", ".", "no/such/folder/file", "x" * 300, "nul\0"])
def test_what_is_no_place_for_a_file_is_refused_in_one_sentence(
    coach: Coach, log: Path, writer: list[str], file: str
) -> None:
    refused = coach(*typed(writer, file), "--force")
    assert refused.code == 2
    assert len(refused.err.splitlines()) == 1
    assert "name another" in refused.err or "name a file in it" in refused.err


@pytest.mark.parametrize("name", [" ", "\t "])
def test_a_name_of_blanks_is_no_file(coach: Coach, log: Path, tmp_path: Path, name: str) -> None:
    for writer in WRITERS:
        told = coach(*typed(writer, name))
        assert told.code == 2
        assert "A file cannot have a name of blanks" in told.out + told.err


def test_a_job_is_for_its_owner_alone_and_what_is_made_to_be_shown_is_as_the_user_has_it(
    coach: Coach, log: Path, tmp_path: Path
) -> None:
    usual = os.umask(0o022)
    try:
        for writer in WRITERS:
            assert coach(*typed(writer, writer[0])).code == 0
    finally:
        os.umask(usual)
    modes = [(tmp_path / writer[0]).stat().st_mode & 0o777 for writer in WRITERS]
    assert modes == [0o600, 0o644, 0o644]


@pytest.mark.parametrize(
    ("file", "why"),
    [
        ("con.md", "has con.md in it, which Windows keeps for a device"),
        ("NUL", "has NUL in it, which Windows keeps for a device"),
        ("lpt1.tar.md", "has lpt1.tar.md in it, which Windows keeps for a device"),
        ("hook?.md", "has ? in it, which no name of a file has on Windows"),
        ("hook:first.md", "has : in it, which no name of a file has on Windows"),
        ("hook.", "ends in a blank or a full stop, which Windows leaves out of a name"),
    ],
)
def test_a_name_that_windows_keeps_for_itself_is_refused_there_in_one_sentence(
    coach: Coach, monkeypatch: pytest.MonkeyPatch, file: str, why: str
) -> None:
    """What is written to one of them is gone, or lies beside a file of another name."""
    job = coach.job()
    assert coach("sheet", job, "--markdown", file).code == 0  # here it is a name like any other
    monkeypatch.setattr("coach.files.IS_WINDOWS", True)
    for writer in WRITERS:
        said = coach(*typed(writer, file))
        assert said.code == 2
        assert said.err == f"{file} {why}: name another file.\n"


def test_a_job_that_is_called_like_a_device_is_not_written_to_it(
    coach: Coach, monkeypatch: pytest.MonkeyPatch
) -> None:
    coach("begin", "first-hook", "--name", "con")
    monkeypatch.setattr("coach.files.IS_WINDOWS", True)
    said = coach("export", "con")
    assert said.code == 2
    assert "con.job.jsonl has con.job.jsonl in it, which Windows keeps for a device" in said.err
    assert coach("export", "con", "the-con.job.jsonl").code == 0
