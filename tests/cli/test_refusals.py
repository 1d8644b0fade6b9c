"""A request that cannot be carried out ends in one sentence and exit code 2, and enters nothing."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Coach

# What is typed (JOB stands for a job under way at its second step), and words that the sentence must have.
WRONG: list[tuple[list[str], list[str]]] = [
    (["reed", "JOB"], ["reed", "coach read"]),
    (["frobnicate"], ["frobnicate", "coach --help"]),
    (["read"], ["JOB", "coach read --help"]),
    (["read", "JOB"], ["ZONE.DIMENSION=SIZE", "coach read --help"]),
    (["read", "JOB", "31.5"], ["31.5", "zone.dimension=size"]),
    (["read", "JOB", "=31.5"], ["zone.dimension=size"]),
    (["read", "JOB", "tip.width="], ["tip width"]),
    (["read", "JOB", "tip.width=abc"], ["tip width", "abc"]),
    (["read", "JOB", "tip.width=1,500"], ["1,500"]),
    (["read", "JOB", "tip.width=9**9**9"], ["tip width"]),
    (["read", "JOB", "tipp.width=8"], ["tipp", "tip"]),
    (["read", "JOB", "tip.widht=8"], ["widht", "width"]),
    (["read", "JOB", "tip.width=8", "--gauge", "calipper"], ["calipper", "calliper"]),
    (["read", "JOB", "tip.width=8", "--hot", "lihgt orange"], ["lihgt orange"]),
    (["read", "JOB", "tip.width=8", "--hot", "9000 C"], ["9000"]),
    (["heat", "nosuch"], ["nosuch", "first-hook"]),
    (["heat", "JOB", "more"], ["more", "coach heat --help"]),
    (["done", "JOB", "--heats", "three"], ["three", "number of heats"]),
    (["done", "JOB", "--heats", "-1"], ["'-1'", "number of heats"]),
    (["done", "JOB", "--heats", "0"], ["1"]),
    (["done", "JOB", "--heats", "1000000"], ["heats", "200, not 1000000"]),
    (["note", "JOB", " "], ["empty"]),
    (["note", "JOB", "x" * 5000], ["5000"]),
    (["strike", "JOB", "x"], ["'x'", "number of an entry"]),
    (["strike", "JOB", "99"], ["99"]),
    (["strike", "JOB", "1"], ["beginning"]),
    (["begin", "first-hok"], ["first-hok", "first-hook"]),
    (["begin", "first-hook", "--name", "first-hook"], ["first-hook"]),
    (["begin", "first-hook", "--name", "../x"], ["'../x'", "letters, digits, hyphens"]),
    (["plan", "nosuch.yaml"], ["nosuch.yaml"]),
    (["check", "first-hook", "nosuch"], ["nosuch"]),
    (["jobs", "--units", "cubits"], ["cubits", "coach jobs --help"]),
    (["jobs", "--shop", ""], ["--shop"]),
    (["--nonsense"], ["--nonsense"]),
    (["demo", "--shop", "x"], ["--where"]),
    (["open", "JOB"], ["coach where"]),
    ([], ["coach jobs"]),
    (["--json"], ["coach jobs --json"]),
]


def as_one_word(words: list[str]) -> str:
    return " ".join(words)[:60] or "coach alone"


@pytest.mark.parametrize(("words", "telling"), WRONG, ids=[as_one_word(words) for words, _ in WRONG])
def test_a_wrong_request_is_told_in_one_sentence(coach: Coach, words: list[str], telling: list[str]) -> None:
    job = coach.job()
    coach("done", job)
    coach("heat", job)
    before = coach("history", job).out
    typed = [job if word == "JOB" else word for word in words]

    said = coach(*typed)
    assert said.code == 2
    assert "Traceback" not in said.err
    assert len(said.err.splitlines()) == 1
    for word in telling:
        assert word in said.err
    if "--json" not in typed:
        assert said.out == ""
    assert coach("history", job).out == before

    if "--json" not in typed and typed:
        also = coach(*typed[:1], "--json", *typed[1:])
        assert also.code == 2
        assert set(json.loads(also.out)) == {"error"}


def test_a_job_is_looked_for_where_there_is_no_log_without_making_one(coach: Coach) -> None:
    said = coach("where", "hook")
    assert said.code == 2
    assert "coach begin RECIPE" in said.err
    assert not coach.home.exists()


def test_a_beginning_that_two_jobs_share_is_refused(coach: Coach) -> None:
    coach.job()
    coach.job()
    said = coach("heat", "first")
    assert said.code == 2
    assert "first-hook, first-hook-2" in said.err


def test_a_line_with_one_faulty_reading_enters_none(coach: Coach) -> None:
    job = coach.job()
    said = coach("read", job, "tip.length=32", "shank.length=wide", "plate.length=37")
    assert said.code == 2
    assert len(coach("history", job).out.splitlines()) == 1


def test_a_demonstration_without_a_terminal_says_how_to_see_it(coach: Coach) -> None:
    said = coach("demo")
    assert said.code == 2
    assert "coach demo --no-screen" in said.err


@pytest.mark.parametrize(
    ("name", "content"),
    [("text.sqlite", b"this is a letter to the farrier"), ("folder.sqlite", None)],
)
def test_a_file_that_is_no_log_is_refused(
    coach: Coach, tmp_path: Path, name: str, content: bytes | None
) -> None:
    path = tmp_path / name
    if content is None:
        path.mkdir()
    else:
        path.write_bytes(content)
    said = coach("jobs", "--shop", str(path))
    assert said.code == 2
    assert name in said.err
    assert len(said.err.splitlines()) == 1


def test_a_rest_between_tack_and_weld_is_refused_unless_insisted_on(coach: Coach) -> None:
    job = coach.job("carpenters-adze")
    while coach("where", job, "--json").part("step", "operation") != "tack":
        assert coach("done", job).code in (0, 1)
    coach("done", job)
    refused = coach("rest", job)
    assert refused.code == 2
    assert "weld" in refused.err
    assert coach("rest", job, "--insist").code == 1
    assert coach("where", job, "--json").values["state"] == "resting"
