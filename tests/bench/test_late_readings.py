"""What is entered late of an early step is older than what was measured since, and overthrows none of it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from tests.bench.test_settled_sizes import at_step, spare_of


def finished_and_measured() -> Session:
    job = at_step("first-hook", 99)
    job.read("shank.length", "108.2")
    job.read("tip.length", "91.4")
    return job


@pytest.mark.parametrize(("name", "size"), [("shank.length", "100"), ("shank.side", "9.9")])
def test_a_paper_reading_of_an_early_step_is_questioned_where_the_finished_size_speaks_against_it(
    name: str, size: str
) -> None:
    job = finished_and_measured()
    before = job.standing()
    answer = job.read(name, size, then=job.then(3))
    assert answer.bad_news
    after = job.standing()
    assert (after.verdict, after.chance) == (before.verdict, before.chance)
    assert after.sizes == before.sizes
    job.read(name, size, then=job.then(3))  # and twice the same makes it no younger
    assert job.standing().sizes == before.sizes


def test_paper_readings_that_agree_are_believed_and_the_finished_sizes_stay_as_they_were_read() -> None:
    job = finished_and_measured()
    for name, size, step in (("shank.side", "8.3", 3), ("tip.thickness", "8.4", 2)):
        assert not job.read(name, size, then=job.then(step)).did.is_questioned  # type: ignore[union-attr]
    sizes = {one.name: one.expected.value for one in job.standing().sizes}
    assert sizes["shank.length"] == pytest.approx(108.2, abs=0.05)
    assert sizes["tip.length"] == pytest.approx(91.4, abs=0.05)
    # Above the least of 100 and of 81.
    assert spare_of(job, "shank.length").value == pytest.approx(8.2, abs=0.2)
    assert spare_of(job, "tip.length").value == pytest.approx(10.4, abs=0.2)
