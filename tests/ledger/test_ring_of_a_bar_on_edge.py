"""A ring of its bar on edge is drawn with its wall first, and so its bar is written."""

from __future__ import annotations

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write

RING = """\
recipe: Ring
scale: none
pieces:
  ring:
    metal: mild steel
    bar: BAR
    size: ring of 25 x 5 on edge, inside 80
usual: {at: light yellow, weld at: 1300 °C, kerf: 1.5, flux: borax}
steps:
  - mark out: ring
  - cut: ring, cold
  - bend: ring, ring, inside 80, 2 heats
  - weld shut: ring, heats 1 weld + 1 close
"""


def found(bar: str) -> list[str]:
    return [
        write(one.sentence) for one in weigh(look_back(read_recipe(RING.replace("BAR", bar), "ring.yaml")))
    ]


# The wall lies across the ring, its other size along its axis: 5 and 25 mm (by definition).
def test_a_bar_that_is_written_the_other_way_about_is_told_once_and_what_it_says_helps() -> None:
    (told,) = found("25 x 5")
    assert "Write it 5 mm x 25 mm." in told
    assert found("5 x 25") == []
