"""A hole that reaches as far as the free end of its piece is asked about."""

from __future__ import annotations

from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.recipe.reader import read_recipe
from coach.telling.words import write

HOE = """\
recipe: Strap
scale: none
pieces:
  strap:
    metal: mild steel
    bar: 30 x 10
    zones:
      eye: 30 ±2 x 10 ±0.6, long 36 ±3, slot hole HOLE ±0.5 x 10 ±0.5 through its thickness
      leg: 30 ±1 x 10 ±0.6, long 60 ±4
usual: {at: yellow, kerf: 1.5}
steps:
  - mark out: strap
  - punch: eye, 3 heats, slug 4
  - cut: leg, cold
"""


def asked(hole: str) -> list[str]:
    plan = look_back(read_recipe(HOE.replace("HOLE", hole), "strap.yaml"))
    return [told for one in questions(plan) if "tears out" in (told := write(one.sentence))]


# By hand: (36 - 35.6) / 2 = 0.2 mm of metal at the end, less than the scale of its heats; (36 - 24) / 2 = 6.
def test_a_slot_as_long_as_its_eye_is_asked_about() -> None:
    (told,) = asked("35.6")
    assert "a hole 35.6 mm long leaves 0.2 mm at the end of eye" in told
    assert asked("24") == []
