"""A piece of several that was cut short, found out a step later: no heat ahead adds the metal that is gone.

By hand: a pad of 18 x 5 mm, 44 long, of a bar 12 mm round (113.1 mm²) is cut off 36.1 long. The least that
the drawing allows is about 16 x 4.2 x 39 = 2621 mm³, 23.2 mm of that bar; cut at 19 it has 2149.
"""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.drafting.make import made_often
from coach.ledger.verdict import PlanState, Verdict
from tests.bench.jobs import at_step_of, begun

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


def jaw_mm(job: Session) -> float:
    """The second arm's jaw, in mm of its bar of 20 x 20 mm."""
    now = job._state.now
    assert now is not None
    return now.volume_mm3("arm 2 jaw") / 400.0


@pytest.mark.parametrize("step", [3, 4])
def test_what_an_arm_was_sawn_short_lies_before_the_next_whenever_that_is_read(step: int) -> None:
    """Sawn at 104 where the mark leaves 111.8: 7.8 mm more stand before the jaw's 22.0, 29.8."""
    job = at_step_of("bolt-tongs", step)
    assert jaw_mm(job) == pytest.approx(22.0, abs=0.1)
    job.read("arm 1 rein.length", "104", insist=True)
    assert jaw_mm(job) == pytest.approx(29.8, abs=0.3)
    job.done()
    assert jaw_mm(job) == pytest.approx(29.8, abs=0.3)
    job.read("arm 1 rein.length", "104")
    assert jaw_mm(job) == pytest.approx(29.8, abs=0.3), "the same once more adds nothing"


def test_one_that_was_sawn_at_its_mark_leaves_the_next_as_it_was() -> None:
    job = at_step_of("bolt-tongs", 4)
    job.read("arm 1 rein.length", "111.8")
    assert jaw_mm(job) == pytest.approx(22.0, abs=0.2)


def test_a_reading_that_is_questioned_adds_nothing_to_the_next() -> None:
    job = at_step_of("bolt-tongs", 4)
    job.read("arm 1 rein.length", "90")
    assert jaw_mm(job) == pytest.approx(22.0, abs=0.1)
