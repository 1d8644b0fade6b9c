"""What is worth a look before the fire is lit."""

from __future__ import annotations

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.worth_a_look import worth_a_look

HOOKS = """\
recipe: S-hook
pieces:
  hook:
    metal: mild steel
    bar: round 10
    make: MADE
    zones:
      left: round 10 to 5, long 100 ±1
      right: round 10 to 5, long 100 ±1
usual: {at: yellow}
steps:
  - mark out: hook
  - taper: left
  - taper: right
  - cut: right, cold, kerf 1.5
"""


def told(made: int) -> list[str]:
    plan = planned_tool(look_back(read_recipe(HOOKS.replace("MADE", str(made)), "hook.yaml")))
    return [write(words) for words in worth_a_look(plan)]


def test_what_several_made_alike_lack_is_told_once_for_all() -> None:
    one, three = told(1), told(3)
    assert len(one) == len(three) == 2
    assert one[0].startswith("Mark left ")
    assert three[0].startswith("Mark hook 1 left, hook 2 left and hook 3 left each ")
    # The first begins at the end of the bar; of those behind it both ends are marks, each as doubtful.
    assert _longer_mm(three[0]) >= _longer_mm(one[0])
    assert one[1].removeprefix("Mark right ") == three[1].partition(" each ")[2]


def _longer_mm(sentence: str) -> float:
    return float(sentence.partition(" mm longer for a 95 % chance")[0].rpartition(" ")[2])
