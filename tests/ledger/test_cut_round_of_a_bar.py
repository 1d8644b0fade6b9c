"""How much of its bar a round takes, a cut that says its length, and a row of holes in a larger bar."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, weigh
from coach.recipe.reader import read_recipe

PAN = """\
recipe: Pan
scale: none
pieces:
  pan:
    metal: mild steel
    bar: {bar}
    size: disc, diameter {across} ±1, thickness 2
steps:
  - cut: pan, cold, kerf 2{cut}
  - cut round: pan, diameter {across} ±1
"""


@pytest.mark.parametrize("wide", [90, 92, 100, 120, 150])
def test_a_round_takes_its_diameter_of_a_bar_however_much_wider_that_is(wide: int) -> None:
    # Elementary geometry: what the circle lies on is as long as it is wide.
    plan = look_back(read_recipe(PAN.format(bar=f"{wide} x 2", across=90, cut=""), "job.yaml"))
    assert plan.cuts[0].length.value == pytest.approx(90.0, abs=0.01)
    assert [one for one in weigh(plan) if one.what is Cannot.MAKE_SIZE] == []


def test_of_a_bar_that_is_narrower_than_the_round_it_is_told() -> None:
    plan = look_back(read_recipe(PAN.format(bar="80 x 2", across=90, cut=""), "job.yaml"))
    assert "spread it wider first" in str(next(one for one in weigh(plan)).sentence)


@pytest.mark.parametrize("long_mm", [92, 100, 130])
def test_a_cut_that_says_its_length_is_made_at_that(long_mm: int) -> None:
    text = PAN.format(bar="100 x 2", across=90, cut=f", long {long_mm}")
    plan = look_back(read_recipe(text, "job.yaml"))
    assert plan.cuts[0].length.value == pytest.approx(long_mm)


def test_a_plate_that_is_cut_and_then_filed_to_length_is_cut_at_what_its_cut_says() -> None:
    text = """\
recipe: Plate
scale: none
pieces:
  plate: {metal: mild steel, bar: 30 x 6, size: "30 x 6, long 98 ±1"}
steps:
  - cut: plate, cold, kerf 2, long 100 ±1
  - file: plate, long 98 ±1
"""
    plan = look_back(read_recipe(text, "job.yaml"))
    assert plan.cuts[0].length.value == pytest.approx(100.0)


PIERCED = """\
recipe: Strap
scale: none
pieces:
  plate: {{metal: mild steel, bar: {bar}, size: "28 x 4.5, two round holes 8.3, long 96 ±2"}}
steps:
  - cut: plate, cold, kerf 2
  - pierce: plate, cold, slug {slug}
"""


@pytest.mark.parametrize(("bar", "told"), [("35 x 5", 1), ("28 x 6", 1), ("28 x 4.5", 0)])
def test_a_row_of_holes_draws_no_bar(bar: str, told: int) -> None:
    plan = look_back(read_recipe(PIERCED.format(bar=bar, slug=4.5), "job.yaml"))
    found = [str(one.sentence) for one in weigh(plan) if one.what is Cannot.KEEP_SECTION]
    assert [("forge it to 28 mm × 4.5 mm in a step before this" in one) for one in found] == [True] * told


def test_the_slug_of_a_row_is_no_thicker_than_its_bar() -> None:
    plan = look_back(read_recipe(PIERCED.format(bar="28 x 4.5", slug=60), "job.yaml"))
    assert [one.what for one in weigh(plan)] == [Cannot.OPEN]
