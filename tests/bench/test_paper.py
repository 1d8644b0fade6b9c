"""What a sheet for the forge asks to be measured: what the bench will ask, at each step of each recipe."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from coach.bench.paper import recipe_sheet
from coach.bench.shop import Shop
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.telling.figures import write_wanted

SHELF = sorted(bundled_recipes().glob("*.yaml"))


def a_shop(folder: Path) -> Shop:
    return Shop(folder / "shop.sqlite", lambda: datetime(2026, 3, 2, 8, tzinfo=UTC))


@pytest.mark.parametrize("recipe", SHELF, ids=lambda path: path.stem)
def test_each_box_waits_for_what_the_bench_asks_with_the_same_limits(recipe: Path, tmp_path: Path) -> None:
    with a_shop(tmp_path) as shop:
        session = shop.begin(recipe.read_text(encoding="utf-8"), recipe.name)
        sheet = recipe_sheet(session.plan)
        assert len(sheet.steps) == len(session.recipe.steps)
        for one in sheet.steps:
            asked = {
                check.name: (check.wanted and write_wanted(check.wanted), check.gauge, check.how)
                for check in session.standing().checks
            }
            boxes = {
                size.name: (size.wanted and write_wanted(size.wanted), size.gauge, size.how)
                for size in one.to_read
            }
            assert boxes == {name: asked[name] for name in boxes}
            assert tuple(boxes) == session.recipe.steps[one.planned.step.number - 1].checks
            session.done()


def test_a_job_under_way_has_what_is_left_with_the_heats_and_readings_of_the_step_in_hand(
    tmp_path: Path,
) -> None:
    hook = bundled_recipes() / "first-hook.yaml"
    with a_shop(tmp_path) as shop:
        session = shop.begin(hook.read_text(encoding="utf-8"), hook.name)
        assert session.on_paper().at_the_bar
        session.done()
        session.heat()
        session.read("tip.thickness", "8.4")
        sheet = session.on_paper()
        assert [one.title for one in sheet.done] == ["Mark out the hook"]
        assert [one.planned.step.number for one in sheet.steps] == list(range(2, 10))
        first = sheet.steps[0]
        assert first.heats == 1
        read = {size.name: size.read.value for size in first.to_read if size.read is not None}
        assert read == {"tip.thickness": 8.4}
        session.done()
        assert not session.on_paper().at_the_bar


def test_a_finished_job_has_nothing_left_to_do(tmp_path: Path) -> None:
    hook = bundled_recipes() / "first-hook.yaml"
    with a_shop(tmp_path) as shop:
        session = shop.begin(hook.read_text(encoding="utf-8"), hook.name)
        for _ in session.recipe.steps:
            session.done()
        assert session.on_paper().steps == ()
        assert len(session.on_paper().done) == 9


def test_what_can_hurt_all_day_and_before_the_first_fire_is_on_it_once() -> None:
    from coach.ledger.looking_back import look_back
    from coach.recipe.reader import read_recipe_file

    for path in SHELF:
        sheet = recipe_sheet(look_back(read_recipe_file(path)))
        assert len({one.moment for one in sheet.care}) == len(sheet.care) == 2, path.stem


def test_marks_that_are_made_stand_on_paper_where_they_were_made_whatever_is_changed_since(
    tmp_path: Path,
) -> None:
    """The two heats of an upset want 1 mm more of a bar of 100 mm²: it is not on the one that lies there."""
    hook = bundled_recipes() / "first-hook.yaml"
    with a_shop(tmp_path) as shop:
        session = shop.begin(hook.read_text(encoding="utf-8"), hook.name)
        marked = session.on_paper().plan.pieces[0].marks
        session.done()
        session.heat()
        session.heat()
        session.read("tip.thickness", "6.5", insist=True)
        session.take("upset-tip-thickness")
        sheet = session.on_paper()
        assert [mark.at for mark in sheet.plan.pieces[0].marks] == [mark.at for mark in marked]
        assert session.as_planned().pieces == sheet.plan.pieces


def test_a_job_on_paper_stands_as_it_stands_at_the_bench(tmp_path: Path) -> None:
    hook = bundled_recipes() / "first-hook.yaml"
    with a_shop(tmp_path) as shop:
        session = shop.begin(hook.read_text(encoding="utf-8"), hook.name)
        session.done()
        session.heat()
        session.read("tip.thickness", "6.5", insist=True)
        standing, plan = session.standing(), session.on_paper().plan
        assert standing.verdict is PlanState.OFF_PLAN
        assert (plan.verdict, plan.chance, plan.reason) == (
            standing.verdict,
            standing.chance,
            standing.reason,
        )
        assert plan.will_pass == standing.will_pass
