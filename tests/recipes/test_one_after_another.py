"""Several made of a recipe whose pieces are cut off late: the bar is their handle until then.

How such work is ordered is common practice, no source: what is forged on the end of a bar is finished as far
as it is held by that bar, cut off, and the bar's new end is the next piece.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from pathlib import Path

import pytest

from coach.drafting.from_bar import from_bars
from coach.drafting.make import made_often
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.operations.does import Does
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe
from tests.recipes.building import spelt_out

SHELF = sorted((Path(__file__).parents[2] / "recipes").glob("*.yaml"))
HOOKS = """
recipe: Hooks
make: 3
pieces:
  hook:
    metal: mild steel
    bar: square 10
    zones:
      tip: square 8 ±0.8 to 3 ±1, long 90 ±9
      plate: 10 ±2 x 10 ±0.8, long 44 ±4
steps:
  - mark out: hook
  - taper: tip, 3 heats
  - cut: plate, 1 heat
  - draw: plate, 16 x 6.2, 1 heat
"""


def recipe_of(text: str) -> Recipe:
    return read_recipe(text, "job.yaml")


def titles(recipe: Recipe) -> list[str]:
    return [f"{step.operation} {' and '.join(step.zones[:1])}" for step in recipe.steps]


def three_of(path: Path) -> Plan:
    return look_back(read_recipe(made_often(path.read_text(), 3), path.name))


def too_early(plan: Plan) -> Iterator[str]:
    """The steps that work a piece while one before it on the same bar is worked and not cut off."""
    for row in plan.rows:
        for at, one in enumerate(row.pieces[1:], 1):
            for before in row.pieces[:at]:
                mine, its = (set(plan.recipe.pieces[name].every_zone) for name in (one.piece, before.piece))
                if before.cut_in is None:
                    continue
                for step in plan.recipe.steps[: before.cut_in - 1]:
                    if mine & set(step.zones) and not step.does(Does.MARKS_OUT):
                        yield f"{step.number} {step.title}, before step {before.cut_in} cuts {sorted(its)[0]}"


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_three_of_every_recipe_of_the_shelf_come_off_their_bar_one_after_another(path: Path) -> None:
    assert not list(too_early(three_of(path)))


def test_a_piece_is_forged_as_far_as_its_bar_holds_it_and_the_rest_is_done_on_each_in_turn() -> None:
    assert titles(recipe_of(HOOKS)) == [
        *(f"mark out hook {one} tip" for one in (1, 2, 3)),
        *(
            f"{work} hook {one} {zone}"
            for one in (1, 2, 3)
            for work, zone in (("taper", "tip"), ("cut", "plate"))
        ),
        *(f"draw hook {one} plate" for one in (1, 2, 3)),
    ]


def test_what_is_cut_apart_first_is_worked_as_it_was_each_step_on_all_in_turn() -> None:
    sawn = HOOKS.replace("  - cut: plate, 1 heat\n", "").replace(
        "  - taper", "  - cut: plate, cold\n  - taper"
    )
    works = [step.operation for step in recipe_of(sawn).steps]
    assert [work for work, _ in groupby(works)] == ["mark out", "cut", "taper", "draw"]


def test_the_steel_of_each_is_made_ready_while_that_one_is_forged_and_is_marked_out_once() -> None:
    adze = next(path for path in SHELF if path.stem == "carpenters-adze")
    steps = three_of(adze).recipe.steps
    places = {(step.title.partition(":")[0], step.zones[0]): step.number for step in steps}
    fits = [places["Fit the face to the poll", f"body {one} poll"] for one in (1, 2, 3)]
    cuts = [places["Cut the head from the bar", f"body {one} bit"] for one in (1, 2, 3)]
    nicks = [places["Nick the face from its bar", f"face {one}"] for one in (1, 2, 3)]
    assert nicks[0] < fits[0] < cuts[0] < nicks[1] < fits[1] < cuts[1] < nicks[2] < fits[2] < cuts[2]
    marks = [places[title, f"face {one}"] for one in (1, 2, 3) for title in ("Mark out the steel face",)]
    assert marks == list(range(marks[0], marks[0] + 3))


def test_each_is_like_the_zone_of_its_own_piece_and_measured_on_it() -> None:
    text = HOOKS.replace("plate: 10 ±2 x 10 ±0.8, long 44 ±4", "plate: like tip, long 44 ±4")
    text = text.replace(
        "  - draw: plate, 16 x 6.2, 1 heat\n",
        "  - taper: plate, 1 heat\n  - inspect: tip\n    check: thickness, plate.length\n",
    )
    recipe = recipe_of(text)
    assert recipe.drawing["hook 2 plate"].limits["length"].nominal == 44
    assert recipe.drawing["hook 2 plate"].limits["width"] == recipe.drawing["hook 2 tip"].limits["width"]
    assert recipe.steps[-2].checks == ("hook 2 tip.thickness", "hook 2 plate.length")


def test_each_piece_is_taken_from_the_billet_that_was_made_for_it() -> None:
    knife = next(path for path in SHELF if path.stem == "layered-knife")
    plan = three_of(knife)
    assert [plan.pieces[f"knife {one}"].source for one in (1, 2, 3)] == ["billet 1", "billet 2", "billet 3"]
    assert not plan.pieces["knife 2"].in_row


def test_pieces_beside_others_of_which_several_are_made_follow_them_on_their_bar() -> None:
    punches = next(path for path in SHELF if path.stem == "punches-and-drifts")
    (row, _) = three_of(punches).rows
    assert [one.piece for one in row.pieces] == [
        f"{kind} punch {one}" for kind in ("round", "slot") for one in (1, 2, 3)
    ]


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_three_of_every_recipe_are_written_back_as_they_are_meant(path: Path) -> None:
    from coach.recipe.writing import write_recipe

    spelt = spelt_out(made_often(path.read_text(), 3))
    written = write_recipe(spelt)
    assert (
        read_recipe(written, "again.yaml").steps
        == read_recipe(made_often(path.read_text(), 3), "again.yaml").steps
    )


def test_a_tool_of_two_arms_has_its_own_two_when_three_are_made() -> None:
    tongs = next(path for path in SHELF if path.stem == "bolt-tongs")
    plan = three_of(tongs)
    trued = [step for step in plan.recipe.steps if step.title.startswith("Work them free")]
    assert [step.zones[0] for step in trued] == ["arm 1 joint", "arm 3 joint", "arm 5 joint"]
    assert {"arm 4 joint", "arm 3 jaw", "arm 4 jaw", "rivet 2"} <= {*trued[1].heated}


def test_from_another_bar_each_is_drawn_to_its_section_when_it_is_the_end_of_the_bar() -> None:
    path = next(one for one in SHELF if one.stem == "cold-chisel")
    text = from_bars(made_often(path.read_text(), 3), path.name, ["round 22, long 560"]).text
    told = [(step.operation, step.zones[0]) for step in read_recipe(text, path.name).steps]
    assert [what for what, _ in told[:3]] == ["mark out"] * 3
    for number in (1, 2, 3):
        drawn = told.index(("draw", f"chisel {number} shank"))
        cut_before = told.index(("cut", f"chisel {number - 1} head")) if number > 1 else 2
        assert cut_before < drawn < told.index(("taper", f"chisel {number} edge"))
