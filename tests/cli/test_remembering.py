"""What commands tell again without reckoning is always what they would reckon."""

from __future__ import annotations

import shutil
import sqlite3

import pytest

from coach.bench import shop as shop_module
from coach.bench.session import Session
from coach.cli.help import made
from coach.log.jobs import Log
from tests.cli.conftest import Coach, Said

#: Every kind of entry there is, as a smith would make it, and what undoes it.
DEEDS = [
    ["heat"],
    ["fire"],
    ["read", "hook.length=400"],
    ["note", "hot short"],
    ["right", "hook: straighten it"],
    ["done"],
    ["back"],
    ["strike"],
    ["rest", "--force"],
    ["resume"],
    ["aside"],
    ["resume"],
]


def told(coach: Coach, job: str) -> list[Said]:
    return [
        coach("where", job),
        coach("where", job, "--json"),
        coach("where", job, "--units", "in"),
        coach("jobs"),
        coach("jobs", "--json"),
        coach("history", job, "--spare"),
        coach("history", job, "--spare", "--json"),
    ]


def test_after_every_kind_of_entry_it_is_what_a_replay_gives(coach: Coach) -> None:
    job = coach.job()
    seen = set()
    for deed in DEEDS:
        coach(deed[0], job, *deed[1:])
        first, again = told(coach, job), told(coach, job)
        shutil.rmtree(coach.home / "cache")
        assert first == again == told(coach, job)
        seen.add(first[1].out)
    assert len(seen) > len(DEEDS) // 2


def test_it_is_told_again_without_opening_the_job(coach: Coach, monkeypatch: pytest.MonkeyPatch) -> None:
    job = coach.job()
    before = told(coach, job)

    def refuse(*_: object) -> Session:
        raise AssertionError("the job was opened")

    monkeypatch.setattr(shop_module.Shop, "open", refuse)
    monkeypatch.setattr(shop_module.Shop, "summary", refuse)
    assert told(coach, job) == before


def test_a_job_is_found_by_the_beginning_of_its_name_as_ever(coach: Coach) -> None:
    job = coach.job()
    assert coach("where", job[:3]) == coach("where", job)
    coach.job()
    said = coach("where", job[:3])
    assert said.code == 2
    assert "Several jobs begin with" in said.err


def test_a_damaged_log_is_told_when_the_job_is_opened(coach: Coach) -> None:
    job = coach.job()
    coach("heat", job)
    with sqlite3.connect(coach.home / "data" / "shop.sqlite") as log:
        guard = log.execute("SELECT sql FROM sqlite_schema WHERE name = 'entries_never_change'").fetchone()
        log.execute("DROP TRIGGER entries_never_change")
        log.execute("UPDATE entries SET body = '{}' WHERE number = 2")
        log.execute(guard[0])
    log.close()
    assert "damaged" in coach("note", job, "never entered").err
    assert "damaged" in coach("jobs", "--json").out
    assert "damaged" in coach("where", job).err


def test_the_newest_fifty_jobs_are_listed_unless_all_are_asked_for(coach: Coach) -> None:
    coach.job()
    with Log(coach.home / "data" / "shop.sqlite") as log:
        [first] = log.entries(log.jobs()[0])
        for number in range(2, 53):
            log.begin(f"hook-{number}", first.at, first.body)
    listed = coach("jobs").out.splitlines()
    assert len(listed) == 52
    assert listed[-1] == "2 more: `coach jobs --all` lists them too."
    assert len(coach("jobs", "--all").out.splitlines()) == 52
    assert len(coach("jobs", "--json").values["jobs"]) == 52  # type: ignore[arg-type]


@pytest.mark.parametrize("asked", ["-h", "--help"])
def test_the_help_is_told_again_as_it_is_made(
    coach: Coach, asked: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for columns in ("80", "60"):
        monkeypatch.setenv("COLUMNS", columns)
        assert coach(asked).out == coach(asked).out == made()


def test_the_help_fits_eighty_columns(coach: Coach) -> None:
    assert max(map(len, coach("--help").out.splitlines())) <= 80
