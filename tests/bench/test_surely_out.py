"""A size that was read and is surely out: the whole has no better chance than that size, whatever else is."""

from __future__ import annotations

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from tests.bench.jobs import at_step_of


def short_link() -> Session:
    """A welded link, read 58 mm long inside, for which 59 is the least: 1 mm under, known to 0.4."""
    job = at_step_of("ring-and-chain", 11)
    job.heat()
    job.heat()
    for name, mm in (("inner length", "58"), ("inner width", "20.9"), ("diameter", "9.8")):
        job.read(f"link 2.{name}", mm, insist=True)
    return job


def test_the_chance_of_the_whole_is_no_better_than_that_of_a_size_that_is_surely_out() -> None:
    standing = short_link().standing()
    assert standing.verdict is PlanState.OFF_PLAN
    assert standing.will_pass is not None
    least = standing.will_pass.least
    assert least is not None
    assert least.name == "link 2.inner_length"
    assert standing.chance <= least.chance < 0.05
    assert standing.will_pass.chance <= standing.chance


def test_nor_does_a_further_loss_raise_it() -> None:
    job = short_link()
    before = job.standing().chance
    job.lose(LossAsked("link 3", "4 g"))
    assert job.standing().chance <= before
    assert job.standing().verdict is PlanState.OFF_PLAN
