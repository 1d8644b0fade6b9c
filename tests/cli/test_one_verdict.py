"""Check, plan, begin and the job itself give one verdict of a recipe."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coach.places import bundled_recipes
from tests.cli.broken_recipes import BROKEN, broken_text
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
    step = THIN_HEAD[: THIN_HEAD.index("drift: body")].count("\n") + 1
    assert f"{path}:{step}:5: Step 2, " in told.out
    assert "body is 19.9 mm thick and is to come out 34 mm" in told.out
    (found,) = json.loads(coach("check", str(path), "--json").out)["recipes"][0]["findings"]
    assert (found["line"], found["column"], found["step"]) == (step, 5, 2)
    plan = coach("plan", str(path))
    assert plan.code == 1
    assert "Off plan" in plan.out


#: A pin whose bar is thinner than its finished end: no amount of metal comes out at its sizes.
NO_WAY = """\
recipe: Steeled bar
pieces:
  body:
    metal: wrought iron
    bar: 40 x 16
    size: 40 ±1 x 10 ±1, long 40 ±4
  steel:
    metal: C80
    bar: 40 x 12
    size: 40 ±1 x 10 ±1, long 60 ±3
steps:
  - weld: body with steel, 40 x 10
"""


@pytest.mark.parametrize("verb", ["check", "plan", "begin"])
def test_what_stops_the_account_is_told_with_its_place_wherever_it_is_asked(
    coach: Coach, tmp_path: Path, verb: str
) -> None:
    path = tmp_path / "laid.yaml"
    path.write_text(NO_WAY, encoding="utf-8")
    told = coach(verb, str(path))
    assert told.code == 1
    line = NO_WAY[: NO_WAY.index("size: 40 ±1 x 10 ±1, long 40")].count("\n") + 1
    assert f"laid.yaml:{line}:11: The steel laid on body" in told.out + told.err


@pytest.mark.parametrize("name", BROKEN)
def test_what_the_metal_cannot_do_is_found_at_its_place_and_is_off_plan_everywhere(
    coach: Coach, tmp_path: Path, name: str
) -> None:
    broken, path = BROKEN[name], tmp_path / "broken.yaml"
    path.write_text(broken_text(name), encoding="utf-8")
    (checked,) = json.loads(coach("check", str(path), "--json").out)["recipes"]
    found = next(one for one in checked["findings"] if one["what"] == broken.what)
    line = broken_text(name).splitlines()[found["line"] - 1]
    assert line[found["column"] - 1 :].startswith(broken.at)
    told = coach("check", str(path)).out
    assert broken.told in told
    assert f"{path}:{found['line']}:{found['column']}: " in told
    assert verdicts(coach, str(path)) == {"off plan"}
    assert f"In the recipe: line {found['line']}, column {found['column']}." in " ".join(
        coach("plan", str(path)).out.split()
    )


def test_the_bench_tells_where_in_the_recipe_it_cannot_be_done(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "broken.yaml"
    path.write_text(broken_text("burnt"), encoding="utf-8")
    coach("begin", str(path))
    assert "In the recipe: line 8, column 5." in " ".join(coach("where", "burnt").out.split())


SHORT = """\
recipe: Straps
make: 2
pieces:
  strap:
    metal: mild steel
    bar: 30 x 5, long 150
    zones:
      plate: 30 x 5, long 200 ±9
      eye: strap eye, inside 16, wide 30, thick 5, lap 30
steps:
  - mark out: all of strap
  - fold: eye
"""


def test_a_bar_too_short_is_told_as_that_until_metal_of_it_is_cut_or_shaped(
    coach: Coach, tmp_path: Path
) -> None:
    """Two straps of 325.5 mm each are 651 mm of bar: the account of the plan, twice one (by hand)."""
    path = tmp_path / "straps.yaml"
    path.write_text(SHORT, encoding="utf-8")
    one = "The bar for strap 1 and strap 2 is too short: it is 150 mm long and the job needs 651 mm"
    told = coach("check", str(path)).out
    assert one in told
    begun = json.loads(coach("begin", str(path), "--json").out)
    for _ in range(2):
        where = " ".join(coach("where", begun["job"]).out.split())
        assert one in where
        assert "no lap" not in where
        coach("done", begun["job"])


#: Of 1084 ground 0.9 mm thinner: the skin of 0.8 mm on each of two faces, and a tenth of sound steel under
#: each, want 2 · (0.8 + 0.1) = 1.8 mm of it, told upwards (the depth by the coach).
SOFT = """\
recipe: Slicer
scale: {forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm}
pieces:
  knife:
    metal: 1084
    bar: 30 x 6
    zones:
      blade: side bevel, on both sides, wide 32 ±2, thick 4 ±0.4, reach 22 ±3, edge 1 ±0.3, long 150 ±14
      tang: 14 ±1.2 x 5 ±0.6 to 7 ±1 x 4 ±0.6, long 90 ±10
usual: {at: light yellow, kerf: 1.5}
steps:
  - mark out: knife
  - side bevel: blade, reach 22, edge 2.2 ±0.4, wide 32 ±2, thick 5 ±0.4, 9 heats
  - cut: tang, 1 heat
  - taper: tang, 3 heats
  - normalise: all of knife, 3 heats, at 860 °C
  - grind: blade, edge 1 ±0.3, thick 4 ±0.4
  - harden: blade, at 800 to 825 °C, soak 5 to 10 min, warp at most 0.8, quench oil
    check: magnet, temperature, soak, file test, warp
  - temper: blade, at 190 to 215 °C, soak at least 2 h
    check: temperature, soak
"""


def test_a_skin_that_the_stone_leaves_is_refused_by_check_plan_and_begin_and_told_at_the_bench(
    coach: Coach, tmp_path: Path
) -> None:
    path = tmp_path / "slicer.yaml"
    path.write_text(SOFT, encoding="utf-8")
    assert [coach(verb, str(path)).code for verb in ("check", "plan", "begin")] == [1, 1, 1]
    for told in (
        coach("plan", str(path)),
        coach("where", "slicer"),
        coach("begin", str(path), "--name", "b"),
    ):
        words = " ".join(told.out.split())
        assert "grinds 0.9 mm off the thickness of blade" in words
        assert "leave 1.9 mm for the stone" in words
    assert verdicts(coach, str(path)) == {"tight"}
