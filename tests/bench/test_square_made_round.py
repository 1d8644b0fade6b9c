"""A square that is hammered round keeps its metal: its diameter may be more than its side was."""

from __future__ import annotations

import pytest

from coach.ledger.verdict import Verdict
from coach.places import bundled_recipes
from tests.bench.jobs import begun

POINT_THE_TINE = 4


# By hand: 5.2 x 5.2 = 27.04 mm2, and a round of that is 2 x sqrt(27.04 / pi) = 5.87 mm across.
@pytest.mark.parametrize(("read_mm", "may_be"), [(5.9, True), (7.6, False)])
def test_no_more_than_its_section_has_metal_for(read_mm: float, *, may_be: bool) -> None:
    job = begun((bundled_recipes() / "meat-fork.yaml").read_text(encoding="utf-8"))
    while (step := job.standing().step) is not None and step.number < POINT_THE_TINE:
        if step.number == POINT_THE_TINE - 1:
            job.heat()
            job.read("tine.side", "5.2")
        job.done()
    job.heat()
    job.read("tine.diameter", str(read_mm))
    assert bool(job.standing().questioned) is not may_be
    verdict = next(one.verdict for one in job.standing().checks if one.name == "tine.diameter")
    assert (verdict is Verdict.GOOD) is may_be
