"""What a job has taught is kept while nothing is added to it, and is then what a replay of it says."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench import known_shop
from coach.bench.known_shop import JobsBefore
from coach.bench.lessons_kept import OfJob
from coach.bench.shop import Shop
from coach.remembered import Memory
from tests.bench.jobs import shop
from tests.bench.test_known_shop import HUNGRY, begun, known
from tests.worlds.study import forged
from tests.worlds.tools import TOOLS


@pytest.fixture
def log(tmp_path: Path) -> Path:
    """A log of two finished jobs."""
    path = tmp_path / "shop.sqlite"
    with shop(path) as at:
        for number in range(2):
            forged(TOOLS[2], number, HUNGRY, 5, at)
    return path


def opened(log: Path, *, remembers: bool = True) -> Shop:
    at = shop(log)
    at.memory = Memory(log.parent / "cache") if remembers else None
    return at


def lessons(at: Shop) -> dict[str, OfJob]:
    before = JobsBefore(at.log, at.plans, at.memory)
    before.all_taught()
    before.hand()
    return {one.job: before._of(one) for one in at.log.latest_first()}


def never(*_: object) -> None:
    raise AssertionError("a job was replayed")


def test_what_was_kept_is_what_a_replay_says(log: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with opened(log) as at:
        lessons(at)
    with opened(log, remembers=False) as at:
        replayed = lessons(at)
    monkeypatch.setattr(known_shop, "replay", never)
    with opened(log) as at:
        assert lessons(at) == replayed
    assert len(replayed) == 2
    assert all(one.figures is not None for one in replayed.values())


def test_a_job_begins_with_the_same_whether_it_was_kept_or_not(log: Path) -> None:
    recipe = begun(shop()).recipe_begun_by
    with opened(log) as at:
        first = at.begins_with(recipe)
    with opened(log) as at, opened(log, remembers=False) as anew:
        assert at.begins_with(recipe) == first == anew.begins_with(recipe)
        assert known(begun(at))["scale"] in first


def test_what_is_struck_out_makes_what_was_kept_of_its_job_void(log: Path) -> None:
    with opened(log) as at:
        before = lessons(at)
        job = at.open("stake")
        reading = next(one.number for one in job.history() if one.reading is not None)
        job.strike(reading)
    with opened(log) as at, opened(log, remembers=False) as anew:
        after = lessons(at)
        assert after == lessons(anew)
    assert after["stake"] != before["stake"]
    assert after["stake-2"] == before["stake-2"]


def test_what_is_kept_and_cannot_be_read_is_reckoned_anew(log: Path) -> None:
    with opened(log) as at:
        told = lessons(at)
        Memory(log.parent / "cache").keep(f"lessons of {log.absolute()}", (), '[["stake", "x", 3]]')
    with opened(log) as at:
        assert lessons(at) == told
