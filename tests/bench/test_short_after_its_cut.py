"""A piece of several that was cut short, found out a step later: no heat ahead adds the metal that is gone.

By hand: a pad of 18 x 5 mm, 44 long, of a bar 12 mm round (113.1 mm²) is cut off 36.1 long. The least that
the drawing allows is about 16 x 4.2 x 39 = 2621 mm³, 23.2 mm of that bar; cut at 19 it has 2149.
"""

from __future__ import annotations

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.drafting.make import made_often
from coach.ledger.verdict import PlanState, Verdict
from tests.bench.jobs import begun

GATE_HOOK = """
recipe: Gate hook
pieces:
  hook:
    metal: mild steel
    bar: round 12, long 1500
    zones:
      shank: square 10 ±0.8, long 90 ±9
      pad: 18 ±2 x 5 ±0.8, long 44 ±5, takes up wide then long
usual: {at: light yellow, margin: enough for 95 %}
steps:
  - mark out: hook
  - draw: shank, square 10 ±0.8, 2 heats
  - cut: pad, 1 heat
  - spread: pad, flat, thick 5 ±0.8, long 44 ±5, 2 heats
    check: thickness, length, width
"""


def read_in_the_next_step(size: str) -> Session:
    """With the pad of the first measured once the shank of the second is in hand."""
    job = begun(made_often(GATE_HOOK, 3))
    for _ in range(5):
        job.done()
    step = job.standing().step
    assert step is not None
    assert step.title == "Draw the hook 2 shank"
    job.read("hook 1 pad.length", size, insist=True)
    return job


def length(job: Session) -> Check:
    return next(check for check in job.standing().checks if check.name == "hook 1 pad.length")


def test_a_pad_too_short_for_its_drawing_is_out_and_not_on_its_way() -> None:
    job = read_in_the_next_step("19")
    assert length(job).verdict is Verdict.OUT
    assert job.standing().verdict is PlanState.OFF_PLAN


def test_no_way_back_works_it_on_and_one_cuts_another() -> None:
    names = [way.name for way in read_in_the_next_step("19").ways_back()]
    assert "cut-another-hook-1" in names
    assert not [name for name in names if name.startswith("forge-further-hook-1-pad")]


def test_one_that_is_as_long_as_the_plan_has_it_is_good() -> None:
    assert length(read_in_the_next_step("36")).verdict is Verdict.GOOD


def test_another_one_can_be_cut_at_once_while_nothing_of_the_next_is_begun() -> None:
    job = read_in_the_next_step("19")
    job.take("cut-another-hook-1")
    ahead = [step.title for step in job.recipe.steps[len(job._state.records) :]]
    assert ahead[:3] == [
        "Again: mark out the hook 1",
        "Again: draw the hook 1 shank",
        "Again: cut the hook 1 pad",
    ]
    assert job.standing().verdict is PlanState.ON_PLAN
