"""A punch pushes its hole's metal aside: what else it is to make of a section is asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe
from coach.telling.words import write

PLATE = """\
recipe: Plate
pieces:
  head:
    metal: mild steel
    bar: 40 x 12, long 400
    size: SIZE, long 40 ±20, round hole 10
usual: {at: light yellow, kerf: 2}
steps:
  - cut: head, cold
  - punch: head, 2 heats, slug 3
"""


def asked(text: str) -> list[str]:
    told = [write(one.sentence) for one in questions(look_back(read_recipe(text, "plate.yaml")))]
    return [one for one in told if "a punch" in one and "across it before it is punched" in one]


# By hand: 40 · 12 = 480 mm², and 70 · 12 = 840; a hole of 10 through 12 pushes 120 mm² aside.
def test_a_punch_that_is_to_make_its_bar_wider_than_its_hole_does_is_asked_about() -> None:
    (told,) = asked(PLATE.replace("SIZE", "70 x 12"))
    assert "head has 480 mm² across it" in told
    assert "is to have 840 mm² after" in told
    assert "120 mm² here" in told


# 40 · 6 = 240 and 25 · 12 = 300 mm² are a half and less than two thirds of 480.
@pytest.mark.parametrize("size", ["40 x 6", "25 x 12"])
def test_a_punch_that_is_to_draw_its_bar_down_is_asked_about(size: str) -> None:
    (told,) = asked(PLATE.replace("SIZE", size))
    assert "a punch draws no bar" in told


@pytest.mark.parametrize("size", ["40 x 12", "45 x 12"])
def test_one_that_swells_its_bar_by_its_hole_is_not(size: str) -> None:
    assert asked(PLATE.replace("SIZE", size)) == []


@pytest.mark.parametrize("path", sorted(bundled_recipes().glob("*.yaml")), ids=lambda path: path.stem)
def test_no_recipe_of_the_shelf_is_asked_about(path: Path) -> None:
    assert asked(path.read_text(encoding="utf-8")) == []
