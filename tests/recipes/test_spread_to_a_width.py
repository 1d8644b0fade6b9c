"""A spread that is asked for a width leaves that width: its length follows from the metal."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.drafting.answers import Answers
from coach.drafting.draft import drafted
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe

FOOT = """\
recipe: Shelf foot
pieces:
  bar:
    metal: mild steel
    bar: 20 x 6, long 900
    zones:
      foot: 25 x 3, long 60 ±6
      leg: 20 x 6, long 150 ±6
scale: none
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: bar
  - SPREAD
"""


def foot_after(spread: str) -> dict[str, float]:
    plan = look_back(read_recipe(FOOT.replace("SPREAD", spread), "foot.yaml"))
    return plan.by_step[2]["foot"].form_after.sizes_mm()


# By hand: 60 mm of 25 × 3 mm are 4500 mm³, which are 37.5 mm of a bar of 20 × 6 mm.
@pytest.mark.parametrize("free", ["", ", long free"])
def test_a_width_and_a_thickness_asked_of_a_spread_are_what_it_leaves(free: str) -> None:
    text = FOOT.replace("SPREAD", f"spread: foot, wide 25, thick 3{free}, 2 heats")
    plan = look_back(read_recipe(text, "foot.yaml"))
    stage = plan.by_step[2]["foot"]
    assert stage.form_before.sizes_mm()["length"] == pytest.approx(37.5, rel=1e-6)
    leaves = stage.form_after.sizes_mm()
    assert (leaves["width"], leaves["thickness"]) == (25.0, 3.0)
    assert leaves["length"] == pytest.approx(60.0, rel=1e-6)
    assert planned_tool(plan).findings == ()


def test_the_size_of_the_line_is_read_as_the_words_are() -> None:
    assert foot_after("spread: foot, 25 x 3, 2 heats") == foot_after(
        "spread: foot, wide 25, thick 3, long free, 2 heats"
    )


def test_a_taper_spread_to_its_widths_is_as_long_as_its_metal_makes_it() -> None:
    leaves = foot_after("spread: foot, 20 x 6 to 30 x 2, 2 heats\n  - spread: foot, 25 x 3, 2 heats")
    assert (leaves["width"], leaves["end_width"]) == (20.0, 30.0)


def test_a_width_that_nobody_asks_for_still_runs() -> None:
    leaves = foot_after("spread: foot, thick 3, 2 heats\n  - draw: foot, 25 x 3, 2 heats")
    assert leaves["width"] > 21.0


# The steel is 46 mm wide and the blade's root 36: its seat is as wide as the steel, and is left so.
def test_a_proposed_seat_is_as_wide_as_its_steel_and_comes_out_as_it_says() -> None:
    draft = drafted(Answers(**AXE))  # type: ignore[arg-type]
    plan = draft.plan
    assert draft.planned.findings == ()
    seat = next(s for s in plan.recipe.steps if s.zones == ("blade",) and "width" in s.targets)
    assert (seat.operation, seat.targets["width"].nominal) == ("spread", 46.0)
    leaves = plan.by_step[seat.number]["blade"].form_after.sizes_mm()
    assert (leaves["width"], leaves["thickness"]) == (46.0, 20.0)
    weld = next(step for step in plan.recipe.steps if step.lays is not None)
    welded = plan.by_step[weld.number]["blade"]
    assert welded.form_after.sizes_mm()["width"] == pytest.approx(46.0, rel=0.01)  # less its scale


def test_a_seat_no_wider_than_its_bar_is_drawn() -> None:
    narrow = {**AXE, "steel_size": "36 x 8, long 28", "steel_bar": "36 x 10"}
    steps = drafted(Answers(**narrow)).plan.recipe.steps  # type: ignore[arg-type]
    seat = next(s for s in steps if s.zones == ("blade",) and "width" in s.targets)
    assert (seat.operation, seat.targets["width"].nominal) == ("draw", 36.0)


AXE = {
    "name": "Root axe",
    "metal": "wrought iron",
    "bar": "40 x 30",
    "zones": {
        "poll": "40 x 30, long 25",
        "eye": "44 x 30, long 52, oval hole 32 x 18 through its thickness",
        "blade": "36 x 20 to 80 x 6, long 90",
    },
    "laid_on": "blade",
    "steel": "1075",
    "steel_bar": "45 x 10",
    "steel_size": "46 x 8, long 28",
    "inset": "14",
    "hard": "blade",
    "hardness": "54 to 57",
    "haft": "eye",
}
