"""The jobs touched last are told again from what was told before, and are always what a full look gives."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from coach.bench.glance import JobSummary, latest
from coach.bench.shop import Shop
from coach.log.kinds.lesson_left_out import LessonLeftOut
from coach.log.kinds.struck import Struck
from coach.log.newest import OF_SHOP_ALONE, TAKES_BACK, latest_names
from coach.log.status import JobStatus
from coach.remembered import Memory
from tests.screens.stage import PEG

MOST = 4


class Bench:
    """A shop with a clock that a test sets, and the jobs touched last as a command tells them."""

    def __init__(self, folder: Path) -> None:
        self.path, self.at = folder / "shop.sqlite", datetime(2026, 3, 2, 9, tzinfo=UTC)
        self.memory, self.read = Memory(folder / "cache"), 0
        self.shop = Shop(self.path, self.moment)

    def moment(self) -> datetime:
        """A little later each time."""
        self.at += timedelta(seconds=1)
        return self.at

    def begin(self, name: str) -> None:
        """Begin a job."""
        self.shop.begin(PEG, "peg.yaml", name)

    def told(self) -> list[str]:
        """The jobs touched last, by name, which are those of a full look."""
        self.read = 0

        def read(names: Sequence[str]) -> list[JobSummary]:
            self.read += len(names)
            return [self.shop.summary(name) for name in names]

        jobs, count = latest(self.memory, self.path, MOST, read)
        assert jobs == self.shop.jobs()[:MOST]
        assert count == len(self.shop.jobs())
        return [one.job for one in jobs]


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    for number in range(6):
        made.begin(f"peg-{number}")
    yield made
    made.shop.close()


def test_only_the_jobs_that_may_be_among_them_are_read(bench: Bench) -> None:
    assert bench.told() == ["peg-5", "peg-4", "peg-3", "peg-2"]
    assert bench.read == MOST
    bench.told()
    assert bench.read == 0
    bench.shop.open("peg-0").heat()
    assert bench.told() == ["peg-0", "peg-5", "peg-4", "peg-3"]
    assert bench.read == 1
    bench.begin("peg-6")
    assert bench.told() == ["peg-6", "peg-0", "peg-5", "peg-4"]
    assert bench.read == 1


def test_a_job_set_aside_gives_way_to_one_that_was_not_told(bench: Bench) -> None:
    bench.told()
    bench.shop.open("peg-5").set_aside()
    assert bench.told() == ["peg-4", "peg-3", "peg-2", "peg-1"]
    bench.shop.open("peg-5").bring_back()
    assert bench.told()[0] == "peg-5"


def test_a_job_keeps_its_place_when_its_lesson_is_left_out_or_counts_again(bench: Bench) -> None:
    """Whoever says what an old job is to teach has not taken it up; a note beside it has."""
    old = bench.shop.open("peg-1")
    was = bench.shop.summary("peg-1").last_at
    for leave_first in (True, False):
        if leave_first:
            bench.told()
        old.leave_lesson_out("scale")
        assert bench.told() == ["peg-5", "peg-4", "peg-3", "peg-2"]
        old.strike(old.left_out_of_shop()["scale"])
        assert bench.told() == ["peg-5", "peg-4", "peg-3", "peg-2"]
        assert bench.shop.summary("peg-1").last_at == was
    old.leave_lesson_out("scale")
    old.note("Found its tongs.")
    old.leave_lesson_out("pace")
    assert bench.told() == ["peg-1", "peg-5", "peg-4", "peg-3"]


def test_the_kinds_that_take_up_no_job_are_called_as_the_list_reads_them() -> None:
    assert (LessonLeftOut.KIND, Struck.KIND) == (OF_SHOP_ALONE, TAKES_BACK)


def test_a_clock_that_was_put_back_puts_a_job_behind_those_that_were_not_told(bench: Bench) -> None:
    bench.told()
    bench.at -= timedelta(days=300)
    bench.shop.open("peg-5").heat()
    assert bench.told() == ["peg-4", "peg-3", "peg-2", "peg-1"]


@pytest.mark.parametrize(
    "lay", [shutil.copy, lambda one, other: Path(one).replace(other)], ids=["over", "moved"]
)
def test_another_log_in_its_place_is_looked_at_anew(
    bench: Bench, tmp_path: Path, lay: Callable[[Path, Path], object]
) -> None:
    bench.shop.log.save_copy(tmp_path / "older")
    for _ in range(2):
        bench.shop.open("peg-1").heat()
    bench.told()
    bench.shop.close()
    lay(tmp_path / "older", bench.path)
    bench.shop = Shop(bench.path, bench.moment)
    bench.shop.open("peg-2").heat()
    assert bench.told() == ["peg-2", "peg-5", "peg-4", "peg-3"]


@pytest.mark.parametrize("seed", range(2))
def test_whatever_is_done_in_turn_it_is_what_a_full_look_gives(bench: Bench, seed: int) -> None:
    chance = Random(seed)
    for number in range(20):
        job = bench.shop.open(f"peg-{chance.randrange(6)}")
        way = chance.randrange(7)
        if way == 0:
            bench.begin(f"more-{number}")
        elif way == 1:
            job.bring_back() if job.standing().state is JobStatus.SET_ASIDE else job.set_aside()
        elif way == 2:
            bench.at += timedelta(seconds=chance.randrange(-100, 100))
        elif way == 3:
            left_out = job.left_out_of_shop().get("scale", 0)
            job.strike(left_out) if left_out else job.leave_lesson_out("scale")
        else:
            job.note("thin")
        if chance.random() < 0.7:
            bench.told()


def test_with_nothing_remembered_no_job_is_looked_at_that_is_not_told(bench: Bench) -> None:
    for number in range(6, 60):
        bench.begin(f"peg-{number}")
    assert bench.told() == ["peg-59", "peg-58", "peg-57", "peg-56"]
    assert bench.read == MOST
    assert latest_names(bench.path, 2)[1] == ["peg-59", "peg-58"]


def test_of_jobs_of_one_moment_that_which_was_begun_first_comes_first(bench: Bench) -> None:
    at = bench.shop.now()
    first = bench.shop.log.entries("peg-0")[0]
    for name in ("zebra", "ant", "mole"):
        bench.shop.log.begin(name, at, first.body)
    assert latest_names(bench.path, 4)[1] == ["zebra", "ant", "mole", "peg-5"]
    assert bench.told() == ["zebra", "ant", "mole", "peg-5"]
