"""Pieces that are made alike: each step says which of them it is for."""

from __future__ import annotations

import pytest

from coach.recipe.reader import read_recipe
from tests.recipes.test_faults import faults_of

TONGS = """
recipe: Tongs
pieces:
  arm:
    metal: mild steel
    bar: square 20
    make: 2
    zones:
      jaw: 22 x 13, long 36
      rein: 13 x 11, long 400
steps:
  - mark out: arm
    title: Mark out an arm
  - draw: jaw
    title: Draw a jaw
  - draw: arm 2 rein
    title: Draw the second rein
  - draw: arm 1 rein
"""


def test_a_title_said_once_for_several_pieces_says_which_of_them_it_is() -> None:
    titles = [step.title for step in read_recipe(TONGS, "tongs.yaml").steps]
    assert titles[:4] == [
        "Mark out an arm: arm 1",
        "Mark out an arm: arm 2",
        "Draw a jaw: arm 1",
        "Draw a jaw: arm 2",
    ]
    assert titles[4] == "Draw the second rein"
    assert titles[5] == "Draw the arm 1 rein"


@pytest.mark.parametrize(("first", "second"), [("make: 2", "make: 2"), ("make: 2", ""), ("", "make: 2")])
def test_a_zone_name_of_two_pieces_is_refused_where_several_are_made_of_one(first: str, second: str) -> None:
    """The reference page says it: a zone has one name in the whole recipe."""
    text = f"""\
recipe: Gate hooks
pieces:
  strap:
    metal: mild steel
    bar: 30 x 6
    {first}
    zones:
      plate: 30 x 6, long 100 ±9
      eye: 30 x 6, long 50 ±9
  pintle:
    metal: mild steel
    bar: round 16
    {second}
    zones:
      pin: round 14 ±0.5, long 60 ±9
      plate: round 16, long 60 ±9
steps:
  - cut: eye, cold
  - draw: pin
"""
    (fault,) = faults_of(text)
    assert (fault.line, fault.column) == (16, 7)
    assert "“plate” is already a zone of strap" in str(fault.message)


def test_all_of_several_made_alike_are_all_zones_of_each_in_turn() -> None:
    text = """\
recipe: Claws
make: 2
pieces:
  claw:
    metal: C45
    bar: 40 x 6
    zones:
      beak: 40 x 6 to 12 x 4, long 90 ±8
      shank: 40 x 6, long 120 ±9
usual: {at: light orange}
steps:
  - mark out: claw
  - taper: beak
  - normalise: all of claw, 3 heats, at 860 °C
  - normalise: all of claw 2, 3 heats, at 860 °C
"""
    steps = [step for step in read_recipe(text, "claws.yaml").steps if step.operation == "normalise"]
    assert [set(step.heated) for step in steps] == [
        {"claw 1 beak", "claw 1 shank"},
        {"claw 2 beak", "claw 2 shank"},
        {"claw 2 beak", "claw 2 shank"},
    ]


def test_a_piece_that_is_marked_out_with_the_one_it_is_like_is_not_marked_out_once_more() -> None:
    (fault,) = faults_of(
        """\
recipe: Callipers
pieces:
  left:
    metal: mild steel
    bar: 20 x 4
    zones:
      joint: 20 x 4, long 24
      arm: 20 x 4 to 6 x 3, long 150 ±12
  right: {like: left}
steps:
  - mark out: left
  - mark out: right
  - taper: arm
"""
    )
    assert (fault.line, fault.column) == (12, 5)
    assert str(fault.message) == (
        "mark out: left is done on right too, which is like it: leave this step out"
    )
