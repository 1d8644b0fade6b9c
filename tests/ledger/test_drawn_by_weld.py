"""A weld sets a joint: what it is to draw its bar down by is asked about."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.recipe.reader import read_recipe
from coach.telling.words import write

HOE = """\
recipe: Scraper
pieces:
  body:
    metal: mild steel
    bar: 44 x 10, long 400
    zones:
      edge: 44 x 10 to 44 x 3, long 45 ±30
      tang: 44 x 10, long 100 ±12
  bit:
    metal: C45
    bar: 44 x 5
    size: 44 x 5, long 12
usual: {at: light yellow, weld at: 1200 °C, flux: borax, kerf: 2}
steps:
  - mark out: body
  - cut: bit, cold
  - weld: edge with bit, flat, SIZE, 2 heats
  - taper: edge, 3 heats
"""


def asked(size: str) -> list[str]:
    plan = look_back(read_recipe(HOE.replace("SIZE", size), "hoe.yaml"))
    return [told for one in questions(plan) if "draw no bar" in (told := write(one.sentence))]


# By hand: 44 · 10 = 440 mm² of body alone, of which a weld to 20 · 4 = 80 mm² would be five times as long.
def test_a_weld_that_is_to_draw_its_bar_down_is_asked_about() -> None:
    (told,) = asked("20 x 4")
    assert "edge has 440 mm² across it" in told
    assert "leave the weld with 80 mm²" in told


# 440 of 440 and of 396 mm² are 1 and 1.1 times.
@pytest.mark.parametrize("size", ["44 x 10", "44 x 9"])
def test_one_that_only_sets_and_dresses_it_is_not(size: str) -> None:
    assert asked(size) == []
