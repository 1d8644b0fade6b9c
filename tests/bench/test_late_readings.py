"""What is entered late of an early step is older than what was measured since, and overthrows none of it."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.telling.reading import reading_sentence
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
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


@pytest.mark.parametrize("size", ["99.5", "100.4", "101", "9.9", "8.6"])
def test_what_is_doubted_is_not_told_to_lie_past_a_limit_that_it_keeps(size: str) -> None:
    job = finished_and_measured()
    name = "shank.length" if float(size) > 20 else "shank.side"
    answer = job.read(name, size, then=job.then(3))
    check = answer.did
    assert isinstance(check, Check)
    sentence = reading_sentence(check, Shown())
    assert check.wanted is not None
    limits = check.wanted.limits
    if limits.low <= float(size) <= limits.high:
        assert "far over" not in sentence
        assert "far under" not in sentence


def test_a_cleft_that_is_cut_too_deep_is_not_sent_to_another_heat() -> None:
    """What is cut away does not come back (by definition)."""
    job = at_step_of("hedging-hatchet", 12)
    at = next(step for step in job.recipe.steps if step.operation == "groove")
    job = at_step_of("hedging-hatchet", at.number)
    zone, wanted = at.zones[0], at.targets["groove_depth"]
    answer = job.read(f"{zone}.groove_depth", f"{wanted.high + 3.0:.1f}", insist=True)
    assert isinstance(answer.did, Check)
    assert "another heat" not in reading_sentence(answer.did, Shown())
    assert not any("another heat" in write(one.words) for one in job.standing().to_right)
