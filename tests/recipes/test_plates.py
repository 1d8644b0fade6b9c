"""Plates: cut round, sunk to a bowl, pierced with square holes; their metal by hand."""

from __future__ import annotations

from math import pi

import pytest

from coach.bench.planned import planned_tool
from coach.drafting.answers import Answers
from coach.drafting.draft import drafted
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.operations.does import Cause
from coach.recipe.reader import read_recipe
from coach.recipe.spelling import spelt_out
from coach.recipe.writing import write_recipe
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

PAN = """\
recipe: Drip pan
pieces:
  pan:
    metal: mild steel
    bar: 60 x 5
    zones:
      pan: bowl, across 76 ±4, deep 8 ±3, wall 2 ±0.5, allowance 4 %
      strip: 24 ±2 x 5 ±0.6, two square holes 6 ±0.5, long 80 ±9, allowance 2 %
scale: none
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: pan
  - spread: pan, 82 x 2.2, long free, 5 heats
  - draw: strip, 24 x 5, long free, 3 heats
  - cut: strip, cold
  - cut round: pan, disc, diameter 80 ±2
  - dish: pan, 2 heats
  - pierce: strip, two square holes 6, slug 3
"""


# By hand: the round holds pi/4 x 80^2 x 2.2 = 11 058 mm3. The bowl's outer cap is 10 high on a rim of 38:
# pi x 10 x (3 x 38^2 + 10^2)/6 = 23 206 mm3; its ball has a radius of (38^2 + 10^2)/20 = 77.2, the inner one
# 75.2, whose cap 8 high holds pi x 64 x (3 x 75.2 - 8)/3 = 14 584: 8 622 mm3 with a wall of 2. So the wall
# that 11 058 mm3 make is thicker, and its own volume comes back.
def test_a_round_is_cut_from_its_plate_and_sunk() -> None:
    plan = look_back(read_recipe(PAN, "pan.yaml"))
    cut, sunk = plan.by_step[5]["pan"], plan.by_step[6]["pan"]
    assert cut.form_after.volume_mm3() == pytest.approx(pi / 4 * 80**2 * 2.2, rel=1e-9)
    assert cut.taken_mm3[Cause.OFFCUT] == pytest.approx(cut.before_mm3 - pi / 4 * 80**2 * 2.2, rel=1e-9)
    wall = sunk.form_after.sizes_mm()["wall"]
    outer = (38**2 + (8 + wall) ** 2) / (2 * (8 + wall))
    caps = pi * (8 + wall) * (3 * 38**2 + (8 + wall) ** 2) / 6 - pi * 64 * (3 * (outer - wall) - 8) / 3
    assert caps == pytest.approx(pi / 4 * 80**2 * 2.2, rel=1e-6)


# The marks leave a plate on which the circle lies: as long as it is across.
def test_the_marks_leave_a_plate_for_the_whole_circle() -> None:
    plate = look_back(read_recipe(PAN, "pan.yaml")).by_step[5]["pan"].form_before.sizes_mm()
    assert min(plate["width"], plate["length"]) >= 78.0


def test_a_circle_that_does_not_lie_on_its_plate_is_told() -> None:
    plan = look_back(read_recipe(PAN.replace("82 x 2.2", "70 x 2.2"), "pan.yaml"))
    told = [write(one.sentence) for one in weigh(plan)]
    assert any("a round of 80 mm does not lie on a plate" in one for one in told), told


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("deep 8 ±3", "deep 40 ±3", "at most half a ball"),
        ("two square holes 6 ±0.5", "two square holes 25 ±0.5", "leave no metal beside them in a width of"),
        ("two square holes 6 ±0.5", "thirteen square holes 6", "thirteen square"),
        ("two square holes 6 ±0.5", "two rectangle holes 6", "a mouth has two sizes"),
    ],
)
def test_plates_that_cannot_be_are_told(old: str, new: str, told: str) -> None:
    found = faults_of(PAN.replace(old, new))
    assert any(told in write(one.message) for one in found), [write(one.message) for one in found]


def test_it_reads_back_as_it_is_written() -> None:
    recipe = read_recipe(PAN, "pan.yaml")
    text = write_recipe(spelt_out(PAN, "pan.yaml"))
    assert "two square holes 6 ±0.5" in text
    again = read_recipe(text, "pan.yaml")
    assert again.drawing == recipe.drawing
    assert [one.shape for one in again.steps] == [one.shape for one in recipe.steps]


# A square hole through one bar is a rectangle as long as it is wide.
def test_one_square_hole_is_said_by_one_size() -> None:
    one = PAN.replace("two square holes 6 ±0.5", "square hole 9 ±0.5 through its thickness")
    one = one.replace("pierce: strip, two square holes 6", "punch: strip, square hole 9")
    drawn = read_recipe(one, "pan.yaml").drawing["strip"]
    assert drawn.shape.options["hole"] == "rectangle"
    assert drawn.limits["hole_length"] == drawn.limits["hole_width"]
    assert drawn.limits["hole_width"].nominal == 9.0


def test_a_proposal_spreads_cuts_round_and_sinks() -> None:
    zones = {"bowl": "bowl, across 50, deep 14, wall 1.8", "handle": "12 x 5 to 8 x 4, long 160"}
    draft = drafted(Answers("Spoon", "mild steel", "30 x 5", zones))
    assert [write(one.sentence) for one in draft.planned.findings] == []
    works = [line.split(":")[0].strip(" -") for line in draft.text.splitlines() if ": bowl, " in line]
    assert [one for one in works if one != "bowl"] == ["spread", "cut round", "dish"]


# A far end that goes with another of its sizes, which goes with the near one: none is asked too early.
def test_a_twisted_taper_of_one_section_is_followed() -> None:
    text = (
        "recipe: Rod\npieces:\n  rod:\n    metal: mild steel\n    bar: square 36\n    zones:\n"
        "      tip: hexagon 27 ±1, long 63\n      end: square 36, long 60\nsteps:\n  - mark out: rod\n"
        "  - set down: tip, twisted taper, wide 37, thick 30, turn 27\n  - draw: tip\n  - cut: end\n"
    )
    assert planned_tool(look_back(read_recipe(text, "rod.yaml"))).steps
