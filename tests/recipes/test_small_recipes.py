"""Every recipe of the folder `small`, each about one kind of work, from its plan to the end at the bench."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.drawing.job import finished_views, host_pieces
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.verdict import PlanState
from coach.recipe.reader import read_recipe_file
from tests.cli.conftest import Coach, coach
from tests.recipes.walking import forged

__all__ = ["coach"]

RECIPES = sorted(Path(__file__).with_name("small").glob("*.yaml"))


@pytest.fixture(params=RECIPES, ids=lambda path: path.stem)
def path(request: pytest.FixtureRequest) -> Path:
    found: Path = request.param
    return found


@pytest.fixture
def plan(path: Path) -> Plan:
    return look_back(read_recipe_file(path))


def test_it_is_checked_without_a_fault_and_planned(path: Path, coach: Coach) -> None:
    said = coach("check", str(path))
    assert (said.code, "ok" in said.out) == (0, True), said.out
    assert coach("plan", str(path)).code == 0


def test_its_plan_is_on_plan_before_the_first_heat(plan: Plan) -> None:
    tool = planned_tool(plan)
    assert tool.verdict is PlanState.ON_PLAN, tool.reason
    assert not tool.findings


def test_no_step_of_it_makes_metal_or_loses_any_untold(plan: Plan) -> None:
    for zone, way in plan.stages.items():
        for stage in way:
            before = stage.before_mm3 + stage.laid_mm3
            assert stage.after_mm3 + sum(stage.taken_mm3.values()) == pytest.approx(before, rel=1e-12), zone
            assert stage.form_after.volume_mm3() == pytest.approx(stage.after_mm3, rel=1e-9), zone


def test_its_finished_piece_has_a_picture(plan: Plan) -> None:
    for piece in host_pieces(plan):
        assert len(finished_views(plan, piece)) == 2


def test_forged_as_planned_it_comes_out_as_drawn(path: Path) -> None:
    session = forged(path.read_text(encoding="utf-8"), path.name)
    standing = session.standing()
    assert standing.step is None
    assert standing.verdict is PlanState.ON_PLAN, standing.reason
