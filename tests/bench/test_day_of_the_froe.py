"""A froe on which nothing goes as planned, as it was tried at the bench, each figure by hand.

The bar is 50 x 7.8 mm, 7.85 g/cm³ (from memory): 3.06 g for each millimetre of it. Under a strap eye the lap
lies double, so that a millimetre of bar is half a millimetre of lap.
"""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.drafting.bar_there import change
from coach.ledger.verdict import PlanState
from tests.bench.jobs import at_step_of


def spare_mm(job: Session, zone: str, dimension: str) -> float:
    return next(
        one.spare.value for one in job.standing().spares if (one.zone, one.dimension) == (zone, dimension)
    )


def test_a_day_of_the_froe() -> None:
    job = at_step_of("folded-froe", 1)

    # 1. The bar that lies there is thinner: with the scale off it, its blade is near the 7.1 mm allowed.
    change(job, "bar froe = 50 x 7.8, long 520")
    assert job.standing().verdict is PlanState.TIGHT

    # 2. The eye's mark is punched at 200 mm: that is what there is of it.
    job.read("eye.mark", "200", insist=True)
    job.read("blade.mark", "442")
    now = job._state.now
    assert now is not None
    assert now.size("eye", "length").value == pytest.approx(200.5, abs=0.6)
    job.done()

    # 3. Five millimetres burn off its end: 5 x 3.06 = 15.3 g; less 5 x 7.8 / 7.4 / 2 = 2.6 mm of lap.
    job.heat()
    lap_mm = spare_mm(job, "eye", "lap")
    gone = job.loss(LossAsked("eye", "5", "burnt"))
    assert gone.mass.value == pytest.approx(15.3, abs=0.3)
    job.lose(LossAsked("eye", "5", "burnt"))
    assert lap_mm - spare_mm(job, "eye", "lap") == pytest.approx(2.6, abs=0.3)

    # 4. A blade shorter by 20 is cut so much shorter: what is over stays on the bar, not in the blade.
    was_mm = job.plan.bar_of("blade").length_mm
    spare = spare_mm(job, "blade", "length")
    job.change("blade.length = 240 ±10")
    assert job.plan.bar_of("blade").length_mm == pytest.approx(was_mm * 240.0 / 260.0, abs=2.0)
    assert spare_mm(job, "blade", "length") == pytest.approx(spare * 240.0 / 260.0, abs=1.0)

    # 5. The last heat of the bevel straightens too: one heat less in all.
    heats = sum(step.heats for step in job.recipe.steps)
    job.change("6 and 7 in one heat")
    assert sum(step.heats for step in job.recipe.steps) == heats - 1

    # 6. It is folded, and the lap is open: the weld is put in once more.
    job.read("eye.scarf length", "16")
    job.done()
    for _ in range(2):
        job.heat()
    job.read("eye.inside", "36.3")
    job.read("eye.lap", "26")
    job.done()
    steps = len(job.recipe.steps)
    for _ in range(2):
        job.heat()
    job.read("eye.weld line", "fail")
    again = [one.name for one in job.ways_back()]
    job.take(again[0])
    assert len(job.recipe.steps) == steps + 1
    assert job.recipe.steps[4].title == "Again: weld the lap"
