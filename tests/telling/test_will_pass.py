"""Whether a tool will pass is told beside the verdict while there are steps ahead, and not at the end."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.cli.page import set_page
from coach.ledger.looking_back import look_back
from coach.ledger.will_pass import LeastSure, WillPass
from coach.places import bundled_recipes
from coach.quantities import mm
from coach.recipe.reader import read_recipe_file
from coach.screens.bench_pages import metal_lines
from coach.telling.plan import plan_page
from coach.telling.standing import standing_page
from coach.telling.values import json_values
from coach.telling.will_pass import will_pass_text
from coach.telling.writing import Shown
from tests.bench.jobs import shop

SHOWN = Shown("mm")
HOOK = bundled_recipes() / "first-hook.yaml"


def test_it_tells_the_chance_the_ceiling_and_what_is_the_least_sure() -> None:
    will = WillPass(0.62, 0.7, LeastSure("eye.length", "eye", "length", 0.834))
    told = "62 in 100, all that is still to be worked counted in (the verdict counts only what is done); "
    told += "least sure: eye length, 83 in 100; this hand keeps them all 70 in 100 at best"
    assert will_pass_text(will) == told


def test_where_no_step_works_a_size_the_hand_is_not_spoken_of() -> None:
    will = WillPass(0.995, None, LeastSure("eye.length", "eye", "length", 0.996))
    assert will_pass_text(will) == "over 99 in 100; least sure: eye length, over 99 in 100"


def test_a_limit_that_this_hand_keeps_is_offered_in_the_units_of_the_job() -> None:
    least = LeastSure("eye.length", "eye", "length", 0.8, mm(12.7))
    told = will_pass_text(WillPass(0.62, 0.7, least), Shown("in"))
    assert "least sure: eye length, 80 in 100 (±1/2 in would be kept nine times in ten); this" in told


def test_where_nothing_can_be_said_nothing_is() -> None:
    assert will_pass_text(None) == ""


@pytest.fixture(scope="module")
def told_on_the_way() -> list[tuple[int | None, str, str, object]]:
    """Of a job ended step by step: the step in hand, its page, the bench's page of the metal, the values."""
    session = shop().begin(HOOK.read_text(), HOOK.name, None)
    found = []
    while True:
        standing = session.standing()
        metal = "\n".join(line.plain for line in metal_lines(standing, SHOWN, 78, 20))
        step = standing.step.number if standing.step is not None else None
        told = "\n".join(set_page(standing_page(standing, SHOWN)))
        found.append((step, told, metal, json_values(standing)))
        if step is None:
            return found
        session.done()


def test_a_job_tells_it_while_there_are_steps_ahead(
    told_on_the_way: list[tuple[int | None, str, str, object]],
) -> None:
    for step, page, metal, _ in told_on_the_way:
        assert ("Will pass: " in page) == (step is not None)
        assert ("Will pass: " in metal) == (step is not None)


def test_it_is_never_surer_than_so_far(
    told_on_the_way: list[tuple[int | None, str, str, object]],
) -> None:
    for step, _, _, values in told_on_the_way:
        assert isinstance(values, dict)
        will = values["will_pass"]
        assert 0.0 <= will["chance"] <= values["chance"] <= 1.0
        assert will["ceiling"] is None or will["chance"] <= will["ceiling"]
        # At the end the verdict is of the least sure size, and this of all of them at once.
        assert step is not None or will["ceiling"] is None


def test_the_plan_tells_it_beside_the_verdict() -> None:
    planned = planned_tool(look_back(read_recipe_file(HOOK)))
    assert planned.will_pass is not None
    told = " ".join(" ".join(set_page(plan_page(planned, SHOWN))).split())
    assert f"Will pass: {will_pass_text(planned.will_pass)}." in told
