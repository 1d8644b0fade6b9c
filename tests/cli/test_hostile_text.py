"""No command prints what a terminal would carry out, whoever brought it."""

from __future__ import annotations

import json

import pytest

from tests.cli.conftest import Coach
from tests.hostile import CARRIED_OUT, ORDERS, hostile
from tests.screens.stage import PEG


@pytest.fixture
def job(coach: Coach) -> str:
    """A job with such notes, and a recipe whose file is named so."""
    shelf = coach.home / "config" / "recipes"
    shelf.mkdir(parents=True)
    (shelf / f"{ORDERS}.yaml").write_text(PEG, encoding="utf-8")
    (shelf / f"{ORDERS}2.yaml").write_text(hostile(PEG), encoding="utf-8")
    job = coach.job(str(shelf / f"{ORDERS}.yaml"))
    assert coach("note", job, ORDERS * 3).code == 0
    return job


@pytest.mark.parametrize("json_too", [(), ("--json",)], ids=["lines", "json"])
@pytest.mark.parametrize(
    "words",
    [
        ("where", "JOB"),
        ("history", "JOB"),
        ("jobs",),
        ("recipes",),
        ("plan", "RECIPE"),
        ("check", "RECIPE"),
        ("check", "RECIPE2"),
        ("ways", "JOB"),
        ("resume", "JOB"),
        ("note", "JOB", ORDERS),
        ("read", "JOB", f"{ORDERS}=3"),
        ("read", "JOB", f"point.side={ORDERS}"),
        ("read", "JOB", "point.side=9", "--gauge", ORDERS),
        ("read", "JOB", "point.side=9", "--at", ORDERS),
        ("begin", ORDERS),
        ("where", ORDERS),
        ("strike", "JOB", ORDERS),
        (ORDERS,),
        ("jobs", f"--{ORDERS}"),
        ("jobs", "--shop", f"{ORDERS}/shop"),
        ("temper", ORDERS),
    ],
    ids=lambda words: " ".join(words).replace(ORDERS, "ORDERS").replace("JOB", "job"),
)
def test_no_answer_holds_hostile_text_as_it_is(
    coach: Coach, job: str, words: tuple[str, ...], json_too: tuple[str, ...]
) -> None:
    shelf = coach.home / "config" / "recipes"
    named = {"JOB": job, "RECIPE": str(shelf / f"{ORDERS}.yaml"), "RECIPE2": str(shelf / f"{ORDERS}2.yaml")}
    said = coach(*(named.get(word, word) for word in words), *json_too)
    assert said.code in (0, 1, 2)
    assert CARRIED_OUT.findall(said.out + said.err) == []
    if json_too:
        assert isinstance(json.loads(said.out), dict)


def test_a_note_is_read_in_json_as_it_was_entered(coach: Coach, job: str) -> None:
    entries = coach("history", job, "--json").values["entries"]
    assert isinstance(entries, list)
    assert entries[1]["words"] == f"note: {ORDERS * 3}"


def test_a_job_written_to_standard_output_reaches_a_terminal_as_text_and_is_the_same_job(
    coach: Coach, job: str
) -> None:
    said = coach("export", job, "-")
    assert CARRIED_OUT.findall(said.out) == []
    file = coach.home / "again.jsonl"
    file.write_text(said.out, encoding="utf-8")
    assert coach("import", str(file), "--shop", str(coach.home / "other.sqlite")).code == 0
    assert coach("export", job, "-", "--shop", str(coach.home / "other.sqlite")).out == said.out
