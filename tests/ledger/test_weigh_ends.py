"""The thick and the thin end of a taper exchanged: found at that line, and asked about in a drawing."""

from __future__ import annotations

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.ledger.weigh import Cannot, Finding
from coach.recipe.reader import read_recipe
from coach.telling.words import write

SPIKE = """\
recipe: Spike
pieces:
  spike:
    metal: C45
    bar: 30 x 12
    zones:
      head: 30 x 12, long 30 ±3
      point: 30 x 12 to 30 x 4 ±1, long 80 ±8
usual: {at: 1100 °C}
steps:
  - mark out: spike
  - cut: point, cold
  - taper: point, 30 x 12 to 30 x 7, 2 heats
  - taper: point, 2 heats
"""


def found(text: str) -> list[Finding]:
    """Whatever is found wrong with it."""
    return list(planned_tool(look_back(read_recipe(text, "spike.yaml"))).findings)


def asked(text: str) -> list[str]:
    """Whatever is asked about it."""
    return [write(one.sentence) for one in questions(look_back(read_recipe(text, "spike.yaml")))]


def test_the_ends_of_a_first_taper_exchanged_are_found_at_that_step_and_once() -> None:
    assert found(SPIKE) == []
    (one,) = found(SPIKE.replace("30 x 12 to 30 x 7", "30 x 7 to 30 x 12"))
    assert (one.what, one.step, one.line) == (Cannot.RUN_SO, 3, 13)
    assert "are the two ends exchanged?" in write(one.sentence)


def test_a_taper_that_only_its_drawing_turns_round_is_asked_about() -> None:
    assert asked(SPIKE) == []
    turned = SPIKE.replace("30 x 12 to 30 x 4 ±1", "30 x 4 ±1 to 30 x 12")
    turned = turned.replace("  - taper: point, 30 x 12 to 30 x 7, 2 heats\n", "")
    (one,) = asked(turned)
    assert "thickness of 4 mm where it meets its neighbour and 12 mm at its free end" in one


def test_an_end_that_is_spread_is_no_end_exchanged() -> None:
    spread = SPIKE.replace("30 x 12 to 30 x 4 ±1", "30 x 12 to 40 x 4 ±1")
    assert asked(spread) == []
    assert all(one.what is not Cannot.RUN_SO for one in found(spread))
