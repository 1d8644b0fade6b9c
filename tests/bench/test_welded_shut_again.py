"""A ring whose weld has not taken is welded once more as it lies, and loses no second lap."""

from __future__ import annotations

from pathlib import Path

from coach.operations.does import Cause
from coach.operations.reweld import Reweld
from tests.bench.jobs import shop
from tests.recipes import walking

LINK = Path(__file__).parents[1] / "recipes" / "small" / "chain-link.yaml"


def test_a_weld_that_failed_is_offered_again_without_a_second_lap() -> None:
    session = shop().begin(LINK.read_text(encoding="utf-8"), LINK.name)
    walking.forge_up_to(session, 4)
    for _ in range(2):
        session.heat()
    for name, typed in (("inner_length", "54"), ("inner_width", "20"), ("weld_line", "fail")):
        session.read(f"link.{name}", typed)
    again = next(way for way in session.ways_back() if way.name.startswith("do-again"))
    session.take(again.name)
    step = session.recipe.steps[4]
    assert step.operation == Reweld.NAME
    taken = session.plan.by_step[5]["link"].taken_mm3
    assert Cause.SQUEEZE not in taken
    session.done()
    session.heat()
    session.read("link.weld_line", "pass")
    session.done()
    assert session.standing().step is None
    assert not session.standing().to_right
