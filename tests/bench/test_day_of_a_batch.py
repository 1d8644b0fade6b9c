"""A whole day on which nothing goes as planned: three hooks from one bar, and what is left of each by hand.

First hook takes 30.6, 72.3 and 36.6 mm of a bar of 10 x 10 mm, 139.5 in all, so 29.4, 69.5 and 35.2 of one of
10.2 x 10.2 (by 100 / 104.04), 134.1 in all; less scale is a tenth of a millimetre in that.
"""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.off_bar import left_of_bars
from coach.bench.session import Session
from coach.drafting.bar_there import change
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe
from tests.bench.jobs import begun


def length_mm(job: Session, zone: str) -> float:
    start = job._state.start
    assert start is not None
    return start.form(zone).length_mm


def left_mm(job: Session) -> float:
    return left_of_bars(job._state)["hook 1"]


def number_of(job: Session, title: str) -> int:
    return next(step.number for step in job.recipe.steps if step.title == title)


def do(job: Session, *titles: str) -> None:
    """The steps in hand, each with its heats."""
    for title in titles:
        step = job.standing().step
        assert step is not None
        assert step.title == title
        for _ in range(step.heats_planned):
            job.heat()
        job.done()


def test_after_a_day_of_nine_unplanned_things_the_account_is_right() -> None:
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    job = begun(made_often(text.replace("bar: square 10 ", "bar: square 10, long 900 "), 3))

    # 1. Another bar lies there: 430 - 3 x 134.1 = 27.7 mm are left of it.
    change(job, "bar square 10.2, long 430")
    assert left_mm(job) == pytest.approx(27.7, abs=0.3)
    for name, size in (("tip", "29.4"), ("shank", "98.9"), ("plate", "134.1")):
        job.read(f"hook 1 {name}.mark", size)
    do(job, *(f"Mark out the hook {number}" for number in (1, 2, 3)))

    # 2. The third is to have a shorter plate: its mark is made, and stays.
    job.change("hook 3 plate.length = 40 ±4")
    assert length_mm(job, "hook 3 plate") == pytest.approx(35.2, abs=0.1)

    # 3. Ten millimetres burn off the point: 90 less 10 are left, and its end is 3 + 10 x (8 - 3) / 90 = 3.56.
    #    Gone is a frustum of 10 / 3 x (9 + 3 x 3.56 + 12.6) = 107.7 mm³.
    for _ in range(3):
        job.heat()
    for name, size in (("thickness", "8"), ("end_thickness", "3"), ("length", "90")):
        job.read(f"hook 1 tip.{name}", size)
    before = job._state.now
    assert before is not None
    job.lose(LossAsked("hook 1 tip", "10", "burnt"))
    after = job._state.now
    assert after is not None
    form = after.form("hook 1 tip")
    assert (form.length_mm, form.size_mm("end_thickness")) == pytest.approx((80.0, 3.56), abs=0.3)
    gone_mm3 = before.volume_mm3("hook 1 tip") - after.volume_mm3("hook 1 tip")
    assert gone_mm3 == pytest.approx(107.7, rel=0.03)
    job.done()

    # 4. It wants straightening: a heat more, which is planned from now on.
    planned = sum(step.heats for step in job.recipe.steps)
    job.change("add: straighten: hook 1 tip, 1 heat")
    assert sum(step.heats for step in job.recipe.steps) == planned + 1
    do(job, "Straighten the hook 1 tip", "Draw the shank to 8 mm: hook 1")

    # 5. The curl is put off behind the bend.
    job.change(f"put off {number_of(job, 'Curl the tip: hook 1')}")
    do(job, "Bend the hook: hook 1", "Curl the tip: hook 1")

    # 6. Cut at 30, where the mark makes 35.2: so much more lies in front of the second, 29.4 + 5.2 = 34.6.
    job.heat()
    job.read("hook 1 plate.length", "30", insist=True)
    job.done()
    assert length_mm(job, "hook 2 tip") == pytest.approx(34.6, abs=0.4)

    # 7. The second burns through: it is cut off at its mark, and the third has all of its own, 134.1.
    job.heat()
    job.change("give up hook 2")
    do(job, "Cut the plate from the bar: hook 2")
    third = sum(length_mm(job, f"hook 3 {zone}") for zone in ("tip", "shank", "plate"))
    assert third == pytest.approx(134.1, abs=0.1)
    assert left_mm(job) == pytest.approx(27.7, abs=0.3)

    # 8. What can be done by 17:00 is told by the heats so far.
    assert job.ahead("17:00").heats > 0
    while job.standing().step is not None:
        job.done()
    assert job.standing().state == "finished"
    assert left_mm(job) == pytest.approx(27.7, abs=0.3)

    # 9. What was forged is a recipe of two hooks.
    assert [*read_recipe(job.forged(), "forged.yaml").pieces] == ["hook 1", "hook 3"]
