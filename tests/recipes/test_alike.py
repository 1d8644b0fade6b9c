"""Pieces that are made alike: each step says which of them it is for."""

from __future__ import annotations

from coach.recipe.reader import read_recipe

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
