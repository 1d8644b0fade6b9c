"""A heat measured by pyrometer at a weld, as at a quench: kept, and told where a metal must burn."""

from __future__ import annotations

import pytest

from coach.bench.sizes_came import SizeVerdict
from coach.fire.limits import burns_above
from coach.metals.grade import grade
from tests.bench.jobs import HAMMER, at_step, begun
from tests.told import said

TACK, WELD = 6, 7  # steps of the hammer


@pytest.mark.parametrize("number", [TACK, WELD])
def test_the_heat_of_a_weld_can_be_read(number: int) -> None:
    job = at_step(number)
    assert said(job.read("poll.temperature", "1180 C")) == "poll temperature 1180 °C: noted."
    assert not job.standing().to_right
    (kept,) = [one for one in job.sheet().apart if one.name == "poll.temperature"]
    assert kept.verdict is SizeVerdict.AS_READ


def test_a_heat_that_the_steel_must_burn_at_is_told_at_once_and_stays_to_be_looked_at() -> None:
    job = at_step(WELD)
    # C80: the solidus of steel of 0.8 % carbon lies at some 1380 °C, and it burns well below (from memory).
    told = said(job.read("poll.temperature", "1450 C"))
    assert "C80 must be feared to burn" in told
    assert [(one.zone, one.text) for one in job.standing().to_right] == [("poll", "may be burnt")]


def test_what_is_said_to_burn_at_a_weld_is_not_the_most_that_it_is_welded_at() -> None:
    # It agrees with what is told of a heat that is read: above it, and no sooner, one of them may burn.
    step = at_step(WELD).standing().step
    assert step is not None
    assert step.hot is not None
    assert step.hot.welds is not None
    burns = step.hot.welds.burns_above
    assert burns is not None
    assert step.hot.welds.burns_first == "C80"
    assert burns_above(grade("C80"), burns.value - 1.0) is None
    assert burns_above(grade("C80"), burns.value + 1.0) == burns


def test_a_recipe_may_say_between_which_heats_it_welds() -> None:
    text = HAMMER.replace(
        "to: {side: 35 ±1.5}, heats: 2, colour: white}",
        "to: {side: 35 ±1.5, temperature: 1150 to 1250 °C}, heats: 2}",
    )
    job = begun(text)
    for _ in range(WELD - 1):
        job.done()
    assert "good" in said(job.read("poll.temperature", "1200 C"))
    assert "out, " in said(job.read("poll.temperature", "1050 C"))
