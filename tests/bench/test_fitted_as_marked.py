"""A haft that is fitted once the bar is marked out finds the metal that is marked, not that of a new plan."""

from __future__ import annotations

from coach.bench.hafting import HaftAsked
from tests.bench.test_settled_sizes import at_step
from tests.told import why

#: Larger than the hatchet's eye, which was marked out for 34 × 17 mm: so much less metal it would need.
HAFT = HaftAsked("36x22")


def test_an_eye_that_was_marked_out_for_a_smaller_haft_has_its_metal() -> None:
    job = at_step("hedging-hatchet", 2)
    job.fit_haft(HAFT)
    told = why(job.standing())
    assert "gathers no metal" not in told
    row = next(size for size in job.standing().sizes if size.name == "eye.thickness")
    assert row.expected.value > row.wanted.limits.high  # the hole takes less of it away
    assert "thickness" in told


def test_one_that_is_not_marked_out_yet_is_marked_by_the_new_plan() -> None:
    job = at_step("hedging-hatchet", 1)
    job.fit_haft(HAFT)
    assert "gathers no metal" in why(job.standing())
