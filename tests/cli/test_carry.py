"""`coach export` and `coach import`: a job carried from one log to another's."""

from __future__ import annotations

import io
import json
from pathlib import Path
from types import SimpleNamespace

import pytest

from tests.cli.conftest import Coach
from tests.hostile import CARRIED_OUT
from tests.log.bodies import BEGAN


@pytest.fixture(autouse=True)
def _in_a_folder_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_a_job_carried_to_another_log_stands_where_it_stood(coach: Coach, tmp_path: Path) -> None:
    job = coach.job()
    coach("done", job)
    coach("note", job, "the bar leans \u202e to the left")
    assert coach("export", "first", "hook.jsonl").code == 0
    elsewhere = ("--shop", str(tmp_path / "other.sqlite"))
    said = coach("import", "hook.jsonl", *elsewhere, "--json")
    assert said.code == 0
    assert said.part("standing") == coach("where", job, "--json").values
    there = coach("history", job, *elsewhere, "--json").values
    assert there == coach("history", job, "--json").values


def test_a_job_is_exported_to_a_file_of_its_own_name_when_none_is_given(coach: Coach, tmp_path: Path) -> None:
    job = coach.job()
    said = coach("export", job, "--json")
    assert said.values == {"job": job, "file": f"{job}.job.jsonl", "entries": 1}
    lines = (tmp_path / f"{job}.job.jsonl").read_text(encoding="utf-8").splitlines()
    assert json.loads(lines[0])["format"] == "between-heats job"
    assert len(lines) == 2


def test_a_file_is_not_written_over_unless_that_is_asked_for(coach: Coach, tmp_path: Path) -> None:
    job = coach.job()
    kept = tmp_path / "kept"
    kept.write_text("mine")
    refused = coach("export", job, "kept")
    assert refused.code == 2
    assert "--force" in refused.err
    assert kept.read_text() == "mine"
    assert coach("export", job, "kept", "--force").code == 0
    assert kept.read_text(encoding="utf-8").startswith("{")
    assert sorted(one.name for one in tmp_path.iterdir()) == ["home", "kept"]


def test_a_dash_stands_for_the_standard_streams(
    coach: Coach, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    job = coach.job()
    coach("note", job, "a mark \u202e here")
    out = coach("export", job, "-").out
    monkeypatch.setattr("sys.stdin", SimpleNamespace(buffer=io.BytesIO(out.encode())))
    said = coach("import", "-", "--shop", str(tmp_path / "other.sqlite"))
    assert said.code == 0
    assert said.out.startswith(f"Job {job} is imported")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["export", "JOB", "-", "--json"], ["--json"]),
        (["export", "JOB", "."], ["folder"]),
        (["export", "JOB", "/dev/null", "--force"], ["/dev/null", "ordinary file"]),
        (["export", "JOB", "no/such/folder/file"], ["cannot be written"]),
        (["export", "nosuch"], ["no job called 'nosuch'"]),
        (["import", "nosuch"], ["nosuch", "cannot be read"]),
        (["import", "."], ["cannot be read"]),
        (["import", "text"], ["Line 1"]),
        (["import", "bytes"], ["UTF-8"]),
        (["import", "JOB.job.jsonl"], ["here already", "nothing was added", "--shop FILE"]),
    ],
)
def test_what_cannot_be_carried_is_refused_in_one_sentence(
    coach: Coach, tmp_path: Path, words: list[str], said: list[str]
) -> None:
    job = coach.job()
    coach("export", job)
    (tmp_path / "text").write_text("title: a hook\n")
    (tmp_path / "bytes").write_bytes(b"\xff\xfe")
    before = coach("jobs", "--json").values
    refused = coach(*(word.replace("JOB", job) for word in words))
    assert refused.code == 2
    assert refused.out == "" or "--json" in words
    assert all(part in refused.err for part in said)
    assert len(refused.err.splitlines()) == 1
    assert coach("jobs", "--json").values == before


def test_a_job_that_cannot_be_opened_is_not_added(coach: Coach, tmp_path: Path) -> None:
    from coach.log.carry import export_job
    from coach.log.jobs import Log

    with Log(":memory:") as log:
        log.begin("odd", "2026-11-25T09:30:00Z", BEGAN.replaced(text="recipe: Odd\n"))
        (tmp_path / "odd").write_text(export_job(log, "odd"), encoding="utf-8")
    assert coach("import", "odd").code == 1
    assert coach("jobs", "--json").values == {"jobs": []}


def test_a_job_file_holds_nothing_that_a_terminal_carries_out(coach: Coach, tmp_path: Path) -> None:
    job = coach.job()
    coach("note", job, "a\x9b31m \x7f \u202e b")
    file = tmp_path / "carried.jsonl"
    assert coach("export", job, str(file)).code == 0
    assert CARRIED_OUT.search(file.read_text(encoding="utf-8")) is None
    elsewhere = ("--shop", str(tmp_path / "other.sqlite"))
    assert coach("import", str(file), *elsewhere).code == 0
    assert coach("export", job, "-", *elsewhere).out == file.read_text(encoding="utf-8")
