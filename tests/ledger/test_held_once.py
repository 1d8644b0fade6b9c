"""What a rivet holds is counted once, however often its line names it."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write

PAIR = """\
recipe: Pair
scale: none
pieces:
  left:
    metal: mild steel
    bar: 20 x 4
    zones:
      eye: 20 ±2 x 4 ±0.4, long 22 ±2, round hole 6.2 ±0.3
      leg: 20 ±1 x 4 ±0.4, long 60 ±4
  right:
    like: left
  pin:
    metal: mild steel
    bar: round 6
    size: rivet, heads two, diameter 6 ±0.3, grip GRIP ±0.5, head diameter 10 ±1, head height 3 ±0.6
usual: {at: yellow, kerf: 1.5}
steps:
  - mark out: left
  - punch: eye, 1 heat, slug 1
  - cut: leg, cold
  - cut: pin, cold
  - join: HOLDS by pin, 1 heat
"""


def found(holds: str, grip: str) -> list[str]:
    recipe = read_recipe(PAIR.replace("HOLDS", holds).replace("GRIP", grip), "pair.yaml")
    return [told for one in weigh(look_back(recipe)) if "its grip is" in (told := write(one.sentence))]


# By hand: 4 + 4 = 8 mm, whichever way the two are named; `eye` is the one of the left and of the right piece.
@pytest.mark.parametrize("holds", ["eye and right eye", "left eye and right eye"])
def test_two_eyes_are_as_thick_as_the_two(holds: str) -> None:
    assert found(holds, "8") == []
    (told,) = found(holds, "12")
    assert "what it holds is 8 mm thick, left eye and right eye." in told
