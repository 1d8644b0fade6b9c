"""The sizes to measure first, as a job is taken up again, are those that are told everywhere else."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.losing import LossAsked
from tests.bench.jobs import at_step_of
from tests.screens.stage import a_job, a_shop
from tests.told import summary_of


@pytest.mark.parametrize("read", ["8.1", "8.4", "7.6"])
@pytest.mark.parametrize("gauge", ["by eye", "rule", "calliper"])
def test_what_was_read_is_one_figure_among_the_finished_sizes_and_as_the_job_is_taken_up(
    tmp_path: Path, read: str, gauge: str
) -> None:
    with a_shop(tmp_path) as shop:
        job = a_job(shop)
        for _ in range(2):
            job.heat()
        job.read("point.side", read, gauge=gauge)
        standing = job.standing()
        told = {(one.zone, one.dimension): one.now.value for one in job.first_to_measure()}
        finished = {(one.zone, one.dimension): one.expected.value for one in standing.sizes}
        assert told["point", "side"] == finished["point", "side"] == float(read)
        assert f"point side about {read} mm" in "".join(summary_of(job))


def test_no_mark_is_measured_before_it_is_struck() -> None:
    chisel = at_step_of("cold-chisel", 1)  # the bar is marked out
    assert chisel.first_to_measure() == ()
    chisel.read("edge.mark", "41.3")
    assert [(one.zone, one.dimension) for one in chisel.first_to_measure()] == [("edge", "mark")]


def test_what_was_lost_before_the_first_heat_is_not_there_to_measure() -> None:
    # The pick lies there in its bar's own section, so 14 mm of its end are 14 mm of its length.
    job = at_step_of("mattock", 5)
    before = {(one.zone, one.dimension): one.now.value for one in job.first_to_measure()}
    job.lose(LossAsked("pick", "14"))
    now = {(one.zone, one.dimension): one.now.value for one in job.first_to_measure()}
    assert now["pick", "length"] == pytest.approx(before["pick", "length"] - 14.0, abs=0.1)
    assert {**now, ("pick", "length"): 0.0} == {**before, ("pick", "length"): 0.0}
