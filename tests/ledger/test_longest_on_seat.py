"""Steel that is longer than its seat is told a length that fits, and the same one whatever was asked first.

By hand: 50 of steel at 50 × 4.2 and 43.9 of iron at 50 × 4 hold 50·210 + 43.9·200 mm³ together, and as long
as each other they are that by 410 mm²: 47.0 mm. Each mm off the steel leaves 1.05 mm more iron in it.
"""

from __future__ import annotations

import re

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write

SCRAPER = """\
recipe: Laid scraper
pieces:
  body:
    metal: wrought iron
    bar: 50 x 8, long 400
    zones:
      bed: 50 ±1 x 5 ±0.5, long 70 ±6
      tail: 50 ±1 x 6 ±0.5, long 110 ±8
  edge:
    metal: C80
    bar: 50 x 5
    size: 50 x 4.2, long LONG, remains 1.5
usual: {at: yellow, weld at: 1140 °C, kerf: 2, flux: borax}
steps:
  - mark out: body
  - draw: bed, 50 x 4, 2 heats
  - cut: edge, cold
  - draw: edge, thick 4.2
  - weld: bed with edge, 50 ±1 x 6 ±0.5, heats 2 weld + 1 close
  - cut: tail, 1 heat
  - draw: tail
  - draw: bed
"""


def told(long: str) -> list[str]:
    plan = look_back(read_recipe(SCRAPER.replace("LONG", long), "scraper.yaml"))
    return [write(one.sentence) for one in weigh(plan) if "cut it to" in write(one.sentence)]


@pytest.mark.parametrize("long", ["50", "54", "58", "70"])
def test_the_length_told_does_not_hang_on_how_far_the_steel_was_too_long(long: str) -> None:
    [said] = told(long)
    most = re.search(r"cut it to ([\d.]+) mm at the most", said)
    assert most is not None
    assert float(most[1]) == pytest.approx(47.0, abs=0.2)


def test_steel_as_long_as_that_is_none_too_long() -> None:
    assert told("47") == []
