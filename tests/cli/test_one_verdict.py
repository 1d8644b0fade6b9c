"""Check, plan, begin and the job itself give one verdict of a recipe."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coach.places import bundled_recipes
from tests.cli.conftest import Coach

#: Its last step would have to gather metal with a drift; of metal there is enough.
THIN_HEAD = """\
recipe: Thin head
units: mm
summary: Made up, and not to be forged like this.
time: an hour
tools:
  - hammer
pieces:
  body:
    metal: mild steel
    bar: 40 x 20
    size: 44 ±4 x 34 ±1, oval hole 28 ±1 x 17 ±0.8 through its thickness, long 60 ±4
steps:
  - punch: body, oval hole 20 x 8, 2 heats, slug 6 mm
  - drift: body, 2 heats
"""


def verdicts(coach: Coach, recipe: str) -> set[str]:
    told = {"check": json.loads(coach("check", recipe, "--json").out)["recipes"][0]["verdict"]}
    told["plan"] = json.loads(coach("plan", recipe, "--json").out)["verdict"]
    begun = json.loads(coach("begin", recipe, "--json").out)
    told["where"] = json.loads(coach("where", begun["job"], "--json").out)["verdict"]
    return set(told.values())


@pytest.mark.parametrize("name", sorted(path.stem for path in bundled_recipes().glob("*.yaml")))
def test_a_recipe_of_the_shelf_is_on_plan_wherever_it_is_asked(coach: Coach, name: str) -> None:
    assert verdicts(coach, name) == {"on plan"}


def test_a_recipe_that_the_metal_cannot_follow_is_off_plan_wherever_it_is_asked(
    coach: Coach, tmp_path: Path
) -> None:
    path = tmp_path / "thin.yaml"
    path.write_text(THIN_HEAD, encoding="utf-8")
    assert verdicts(coach, str(path)) == {"off plan"}
    told = coach("check", str(path))
    assert told.code == 1
    assert "body is 20 mm thick and is to come out 34 mm" in told.out
    plan = coach("plan", str(path))
    assert plan.code == 1
    assert "Off plan" in plan.out
